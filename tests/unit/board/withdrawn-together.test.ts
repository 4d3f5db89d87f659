import { expect, it } from 'vitest'
import * as Y from 'yjs'
import { addStep } from '@/lib/board/edits/decisions.ts'
import { moveStepDespite } from '@/lib/board/edits/steps.ts'
import { readRecord, readTable } from '@/lib/board/reading.ts'
import { withdrawnTogether } from '@/lib/board/withdrawal.ts'
import { RecordTables } from '@/server/guard/record-tables.ts'

it('a step is withdrawn with the reasons for going on with it, and without it', () => {
  const doc = new Y.Doc()
  let made = 0
  const pen = { participant: 'ada', now: () => new Date('2026-05-04T10:00:00Z'), newId: () => `record-${++made}` }
  const add = (title: string, needs: readonly string[] = []) =>
    addStep(doc, pen, { title, check: '', hazard: '' }, needs)
  const first = add('one')
  const second = add('two', [first])
  const third = add('three', [second])
  for (const [id, need] of [
    [second, first],
    [third, second],
  ] as const) {
    const step = readRecord(doc, 'steps', id)
    if (step !== undefined) moveStepDespite(doc, pen, step, 'under-way', [need], 'seen')
  }
  const tables = new RecordTables()
  tables.fill(doc, ['steps', 'stepExceptions'])
  const answers = readTable(doc, 'stepExceptions').map(({ id }) => ({ kind: 'stepExceptions', id }))
  expect(answers).toHaveLength(2)
  expect(withdrawnTogether(tables, 'steps', second)).toEqual([{ kind: 'steps', id: second }, ...answers])
  expect(withdrawnTogether(tables, 'steps', first)).toHaveLength(2)
})
