import fc from 'fast-check'
import { expect, it } from 'vitest'
import * as Y from 'yjs'
import type { TouchedRecord } from '../../lib/board/layout.ts'
import { readTable } from '../../lib/board/reading.ts'
import { type DocumentKind, kindsIn } from '../../lib/board/records.ts'
import { type History, withoutRecords } from '../../server/withdrawals/history.ts'
import { randomFrom } from '../support/random.ts'
import { SessionWriter } from '../support/session-writer.ts'

/** A session with what was written in it, and states kept on the way. */
function sessionOf(seed: number, kind: DocumentKind): History {
  const writer = new SessionWriter(randomFrom(seed), 500)
  const updates: { seq: number; update: Uint8Array }[] = []
  const states: { seq: number; state: Uint8Array }[] = []
  for (let part = 0; part < 4; part++) {
    for (const written of writer.write(150))
      if (written.kind === kind) updates.push({ seq: updates.length + 1, update: written.update })
    for (const { kind: of, seq, state } of writer.snapshots()) if (of === kind) states.push({ seq, state })
  }
  return { updates, states }
}

function docOf(updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc()
  for (const update of updates) Y.applyUpdate(doc, update)
  return doc
}

const recordsOf = (doc: Y.Doc, kind: DocumentKind, without: readonly TouchedRecord[]) =>
  kindsIn(kind).flatMap((name) =>
    readTable(doc, name)
      .filter(({ id }) => !without.some((gone) => gone.kind === name && gone.id === id))
      .map((record) => JSON.stringify([name, record]))
      .sort(),
  )

/** Of a history, with what replaces parts of it. */
function rewritten(history: History, by: History): History {
  const update = new Map(by.updates.map((each) => [each.seq, each.update]))
  const state = new Map(by.states.map((each) => [each.seq, each.state]))
  return {
    updates: history.updates.map((each) => ({ ...each, update: update.get(each.seq) ?? each.update })),
    states: history.states.map((each) => ({ ...each, state: state.get(each.seq) ?? each.state })),
  }
}

const latin = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1')

it.each(['record', 'floor'] as const)(
  'a history without a record is that of everybody else, at every moment, and holds none of its content: %s',
  { timeout: 120_000 },
  async (kind) => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1_000_000 }), fc.nat(), async (seed, choice) => {
        const history = sessionOf(seed, kind)
        const whole = docOf(history.updates.map(({ update }) => update))
        const all = (
          kind === 'record' ? (['notes', 'steps', 'annotations'] as const) : (['questions'] as const)
        ).flatMap((name) => readTable(whole, name).map(({ id }) => ({ kind: name, id })))
        const gone = [all[choice % all.length] as TouchedRecord]
        const result = rewritten(history, await withoutRecords(history, gone))
        const [before, after] = [new Y.Doc(), new Y.Doc()]
        for (const [index, { update }] of history.updates.entries()) {
          Y.applyUpdate(before, update)
          Y.applyUpdate(after, result.updates[index]?.update ?? update)
          if (index % 50 === 0 || index === history.updates.length - 1)
            expect(recordsOf(after, kind, [])).toEqual(recordsOf(before, kind, gone))
        }
        expect(Y.encodeStateVector(after)).toEqual(Y.encodeStateVector(before))
        for (const { seq, state } of result.states)
          expect(recordsOf(docOf([state]), kind, [])).toEqual(
            recordsOf(docOf(history.updates.slice(0, seq).map(({ update }) => update)), kind, gone),
          )
      }),
      { numRuns: 12 },
    )
  },
)

it('drops the words themselves, also those that a page sent after it was withdrawn, and leaves the rest byte for byte', async () => {
  const updates: { seq: number; update: Uint8Array }[] = []
  const doc = new Y.Doc()
  doc.on('update', (update: Uint8Array) => updates.push({ seq: updates.length + 1, update }))
  const questions = doc.getMap<Y.Map<unknown>>('questions')
  const put = (id: string, text: string) => questions.set(id, new Y.Map([['text', text]]))
  put('other', 'What others asked')
  put('slip', 'Mr Kingfisher, born in May')
  questions.get('other')?.set('state', 'called')
  const late = docOf([Y.encodeStateAsUpdate(doc)])
  const lateUpdates: Uint8Array[] = []
  late.on('update', (update: Uint8Array) => lateUpdates.push(update))
  late.getMap<Y.Map<unknown>>('questions').get('slip')?.set('text', 'Mr Kingfisher again')
  questions.delete('slip')
  for (const update of lateUpdates) updates.push({ seq: updates.length + 1, update })
  const history = {
    updates,
    states: [{ seq: 3, state: Y.encodeStateAsUpdate(docOf(updates.slice(0, 3).map((u) => u.update))) }],
  }
  expect(updates.filter(({ update }) => latin(update).includes('Kingfisher'))).toHaveLength(2)
  expect(latin(history.states[0]?.state ?? new Uint8Array())).toContain('Kingfisher')
  const by = await withoutRecords(history, [{ kind: 'questions', id: 'slip' }])
  const result = rewritten(history, by)
  for (const { update } of result.updates) expect(latin(update)).not.toContain('Kingfisher')
  for (const { state } of result.states) expect(latin(state)).not.toContain('Kingfisher')
  expect(by.updates.map(({ seq }) => seq)).toEqual([2, 5])
  expect(
    docOf(result.updates.map(({ update }) => update))
      .getMap('questions')
      .toJSON(),
  ).toEqual({
    other: { text: 'What others asked', state: 'called' },
  })
})
