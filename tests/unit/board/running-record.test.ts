import { expect, it } from 'vitest'
import { Picture } from '@/lib/board/records/picture.ts'
import { runningRecord } from '@/lib/board/running-record.ts'
import { step } from '../../fixtures/board-records.ts'
import { sampleRecord } from '../../support/sample-records.ts'

const nothing = { steps: [], stepExceptions: [], notes: [], questions: [], contingencies: [], pictures: [] }

it('the running record tells why a step went on before its prerequisite, just before it began', () => {
  const begun = '2026-05-04T10:05:00.000Z'
  const steps = [
    step('first', { title: 'Test every ossicle', state: 'under-way', startedAt: '2026-05-04T10:00:00.000Z' }),
    step('second', { title: 'Fix the implant', state: 'under-way', startedAt: begun, needs: ['first'] }),
  ]
  const answer = { id: 'answer', author: 'ada', at: begun, step: 'second', need: 'first', reason: 'seen before' }
  const lines = runningRecord({ ...nothing, steps, stepExceptions: [answer] })
  expect(lines[1]).toMatchObject({
    kind: 'jump',
    title: 'Fix the implant',
    need: 'Test every ossicle',
    reason: 'seen before',
    elapsedMs: 5 * 60_000,
  })
  expect(lines.map(({ kind }) => kind)).toEqual(['step', 'jump', 'step'])
})

it('the running record has each photograph at its time', () => {
  const begun = step('first', { state: 'under-way', startedAt: '2026-05-04T10:00:00.000Z' })
  const picture = Picture.parse(sampleRecord('pictures', 'one', 'ada', '2026-05-04T10:07:00.000Z'))
  const lines = runningRecord({ ...nothing, steps: [begun], pictures: [picture] })
  expect(lines.map(({ kind, elapsedMs }) => [kind, elapsedMs])).toEqual([
    ['picture', 7 * 60_000],
    ['step', 0],
  ])
})
