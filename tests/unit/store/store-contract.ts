import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { CaseProjection } from '../../../lib/interchange/api.ts'
import type { CaseOutcome } from '../../../lib/interchange/outcome-columns.ts'
import {
  checkpointEvery,
  type Grant,
  type NewCase,
  type NewInvitation,
  type Participant,
  type Scope,
  type Store,
  StoreBehind,
  StoreConflict,
  type StoredPicture,
  StoreOutage,
  type UpdateEntry,
  type Withdrawal,
} from '../../../server/store/store.ts'

/** A place where a store lives: it can be opened, closed and opened again. */
export interface StorePlace {
  open(): Promise<Store>
  dispose(): Promise<void>
}

const at = '2026-03-02T08:00:00.000Z'
const later = '2026-03-02T09:00:00.000Z'
const receipt = { id: 'receipt', by: 'anna', at: later }

const update = (over: Partial<UpdateEntry> = {}): UpdateEntry => ({
  document: 'record.a',
  update: new Uint8Array([1, 2, 3]),
  author: 'anna',
  role: 'team',
  at,
  clients: [],
  ...over,
})

const person = (id: string): Participant => ({ id, name: `Name of ${id}`, affiliation: 'Clinic', createdAt: at })
const caseOf = (id: string, rank = 'a0'): NewCase => ({
  id,
  programme: 'day',
  label: `Case ${id}`,
  rank,
  createdAt: at,
})
const invitation = (id: string, scope: Scope, over: Partial<NewInvitation> = {}): NewInvitation => ({
  id,
  tokenHash: `hash of ${id}`,
  label: id,
  role: 'panel',
  scope,
  createdAt: at,
  expiresAt: null,
  accessUntil: null,
  ...over,
})
const unsettled: CaseProjection = {
  label: 'Case',
  phase: null,
  ear: null,
  deviceClass: null,
  couplingSite: null,
  openQuestions: 0,
  contingenciesMet: 0,
  nextVisitDue: null,
  updatedAt: at,
}
const outcome = (over: Partial<CaseOutcome> = {}): CaseOutcome => ({
  patient: 'Heron',
  ear: 'left',
  deviceClass: 'active-middle-ear-implant',
  couplingSite: 'incus-body',
  pathology: 'otosclerosis',
  malleus: 'mobile',
  incus: 'fixed',
  stapes: 'mobile',
  operatedOn: '2026-01-02',
  tags: 'revision,attic',
  forecast: '{"kind":"absent","reason":"no-profile"}',
  visits: [
    {
      visit: '',
      occasion: 'before',
      year: null,
      heldOn: '2025-12-01',
      air: '500=55 1000=60 8000>110',
      bone: '500=20',
      soundField: '',
      aided: '',
      wordsPercent: 62.5,
    },
    {
      visit: 'visit-2',
      occasion: 'yearly',
      year: 2,
      heldOn: '2028-01-02',
      air: '',
      bone: '',
      soundField: '',
      aided: '500=30',
      wordsPercent: null,
    },
  ],
  ...over,
})
const grantBy = ({ id, role, scope, accessUntil }: NewInvitation, participant: string, grantedAt = at): Grant => ({
  participant,
  scope,
  role,
  grantedAt,
  expiresAt: accessUntil,
  invitation: id,
})

/** Larger than what a database keeps beside a row's other columns. */
const photograph = (seed: number): StoredPicture => ({
  mediaType: 'image/jpeg',
  bytes: Uint8Array.from({ length: 50_000 }, (_, index) => (index * seed) % 251),
})
const plain = (found: StoredPicture | null) => found && { ...found, bytes: Uint8Array.from(found.bytes) }
const takenBack = (caseId: string): Withdrawal => ({
  id: `w-${caseId}`,
  caseId,
  document: `record.${caseId}`,
  records: [{ kind: 'pictures', id: 'two' }],
  content: '[]',
  reason: 'a face',
  by: 'anna',
  role: 'moderator',
  at,
})

/** An instant so many milliseconds after `at`. */
const msLater = (ms: number): string => new Date(Date.parse(at) + ms).toISOString()

/** The rules S1 to S13 of server/store/store.ts and the directory behind the lists, for every implementation alike. */
export function storeContract(makePlace: () => Promise<StorePlace>): void {
  let place: StorePlace
  let store: Store

  beforeEach(async () => {
    place = await makePlace()
    store = await place.open()
  })
  afterEach(async () => {
    await store.close()
    await place.dispose()
  })
  const reopen = async () => {
    await store.close()
    store = await place.open()
  }
  const withCase = async (...ids: string[]) => {
    await store.createProgramme({ id: 'day', label: 'Day', createdAt: at })
    for (const id of ids) await store.createCase(caseOf(id))
  }

  describe('update log', () => {
    it('[S1] keeps bytes, author, role and time over closing and opening', async () => {
      const bytes = Uint8Array.from({ length: 70_000 }, (_, index) => index % 251)
      await store.append([update({ update: bytes, author: 'bo', role: 'panel', at: later })])
      await reopen()
      const { updates } = await store.load('record.a')
      expect(updates.map((entry) => ({ ...entry, update: Uint8Array.from(entry.update) }))).toEqual([
        { seq: 1, update: bytes, author: 'bo', role: 'panel', at: later },
      ])
    })

    it('[S1] stores only the bytes of a view, not the buffer around it', async () => {
      const view = new Uint8Array([9, 8, 7, 6]).subarray(1, 3)
      await store.append([update({ update: view })])
      const [stored] = (await store.load('record.a')).updates
      expect(Array.from(stored?.update ?? [])).toEqual([8, 7])
    })

    it('[S2] numbers each document from 1 without gaps, in the order of the calls', async () => {
      const first = store.append([update(), update({ document: 'floor.a' }), update()])
      const rest = Array.from({ length: 1_500 }, () => store.append([update()]))
      expect(await first).toEqual([1, 1, 2])
      expect((await Promise.all(rest)).flat()).toEqual(Array.from({ length: 1_500 }, (_, index) => index + 3))
      await reopen()
      expect(await store.append([update(), update({ document: 'floor.a' })])).toEqual([1_503, 2])
    })

    it('pages through the log after a sequence number', async () => {
      await store.append(Array.from({ length: 5 }, () => update()))
      expect((await store.log('record.a', 2, 2)).map(({ seq }) => seq)).toEqual([3, 4])
      expect(await store.log('record.a', 5, 2)).toEqual([])
      expect(await store.log('record.unknown', 0, 2)).toEqual([])
    })

    it('loads nothing for a document that was never written', async () => {
      expect(await store.load('record.none')).toEqual({ snapshot: null, updates: [], clientOwners: new Map() })
    })

    it('[S5] loads the newest snapshot and what came after it, and keeps the whole log', async () => {
      await store.append([update(), update(), update()])
      await store.saveSnapshot('record.a', { seq: 2, state: new Uint8Array([42]) })
      await store.saveSnapshot('record.a', { seq: 1, state: new Uint8Array([0]) })
      const { snapshot, updates } = await store.load('record.a')
      expect({ seq: snapshot?.seq, state: Array.from(snapshot?.state ?? []) }).toEqual({ seq: 2, state: [42] })
      expect(updates.map(({ seq }) => seq)).toEqual([3])
      expect(await store.log('record.a', 0, 10)).toHaveLength(3)
    })

    it('[S4] remembers who used a client id first, per document', async () => {
      await store.append([update({ clients: [7, 4_294_967_295] }), update({ clients: [7] })])
      await store.append([update({ document: 'floor.a', author: 'bo', clients: [7] })])
      await reopen()
      expect((await store.load('record.a')).clientOwners).toEqual(
        new Map([
          [7, 'anna'],
          [4_294_967_295, 'anna'],
        ]),
      )
      expect((await store.load('floor.a')).clientOwners).toEqual(new Map([[7, 'bo']]))
    })

    it('[S3] [S4] refuses an append with the client id of somebody else whole, and nothing beside it', async () => {
      await store.append([update({ clients: [7] })])
      const beside = store.append([update({ author: 'bo', clients: [8] })])
      const foreign = store.append([update({ author: 'bo' }), update({ author: 'bo', clients: [9, 7] })])
      const after = store.append([update({ author: 'cy', clients: [9] })])
      await expect(foreign).rejects.toBeInstanceOf(StoreConflict)
      expect([await beside, await after]).toEqual([[2], [3]])
      const { clientOwners } = await store.load('record.a')
      expect(clientOwners).toEqual(
        new Map([
          [7, 'anna'],
          [8, 'bo'],
          [9, 'cy'],
        ]),
      )
    })
  })

  describe('an append that says what it was judged on', () => {
    it('[S9] is stored when nothing came between', async () => {
      expect(await store.append([update(), update()], 0)).toEqual([1, 2])
      expect(await store.append([update()], 2)).toEqual([3])
      expect(await store.append([update({ document: 'floor.a' })], 0)).toEqual([1])
    })

    it('[S3] [S9] is refused whole when somebody else was first, or when it knows more than there is', async () => {
      await store.append([update()])
      for (const afterSeq of [0, 2])
        await expect(
          store.append([update({ clients: [5] }), update({ clients: [6] })], afterSeq),
        ).rejects.toBeInstanceOf(StoreBehind)
      const { updates, clientOwners } = await store.load('record.a')
      expect([updates.length, clientOwners.size]).toEqual([1, 0])
    })

    it('[S9] loses to one of several that were judged on the same', async () => {
      const outcomes = await Promise.allSettled(
        ['anna', 'bo', 'cy'].map((author, client) => store.append([update({ author, clients: [client] })], 0)),
      )
      expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected', 'rejected'])
      for (const outcome of outcomes)
        if (outcome.status === 'rejected') expect(outcome.reason).toBeInstanceOf(StoreBehind)
      expect(await store.append([update()])).toEqual([2])
    })
  })

  describe('earlier states', () => {
    const numbered = (from: number, to: number) =>
      Array.from({ length: to - from + 1 }, (_, index) => update({ at: msLater(from + index) }))
    const openedAt = async (moment: string) => {
      const { snapshot, updates } = await store.loadAt('record.a', moment)
      return { from: snapshot?.seq ?? 0, seqs: updates.map(({ seq }) => seq) }
    }

    it('[S7] are the log up to the last update written until then', async () => {
      await store.append([
        update(),
        update({ at: msLater(10) }),
        update({ at: msLater(10) }),
        update({ at: msLater(20) }),
      ])
      await store.append([update({ document: 'floor.a', at: msLater(5) })])
      expect(await openedAt(msLater(-1))).toEqual({ from: 0, seqs: [] })
      expect(await openedAt(at)).toEqual({ from: 0, seqs: [1] })
      expect(await openedAt(msLater(10))).toEqual({ from: 0, seqs: [1, 2, 3] })
      expect(await openedAt(msLater(19))).toEqual({ from: 0, seqs: [1, 2, 3] })
      expect(await openedAt(msLater(1_000))).toEqual({ from: 0, seqs: [1, 2, 3, 4] })
    })

    it('[S7] hold what was written before the clock was set back', async () => {
      await store.append([update({ at: msLater(50) }), update({ at: msLater(10) }), update({ at: msLater(60) })])
      expect(await openedAt(msLater(20))).toEqual({ from: 0, seqs: [1, 2] })
    })

    it('[S7] begin at the nearest kept snapshot, one every so many updates, also after opening again', async () => {
      const [first, second] = [checkpointEvery, 2 * checkpointEvery]
      await store.append(numbered(1, second + 5))
      for (const seq of [10, first, first + 500, second + 3])
        await store.saveSnapshot('record.a', { seq, state: Uint8Array.of(seq % 251) })
      await reopen()
      const opened = await Promise.all([first - 1, first, second + 2, second + 4].map((ms) => openedAt(msLater(ms))))
      expect(opened.map(({ from, seqs }) => [from, seqs.length, seqs[0], seqs.at(-1)])).toEqual([
        [0, first - 1, 1, first - 1],
        [first, 0, undefined, undefined],
        [first, checkpointEvery + 2, first + 1, second + 2],
        [second + 3, 1, second + 4, second + 4],
      ])
      const kept = (await store.loadAt('record.a', msLater(first))).snapshot
      expect(Array.from(kept?.state ?? [])).toEqual([first % 251])
      expect((await store.load('record.a')).snapshot?.seq).toBe(second + 3)
    })

    it('come with a time line: how far the log reaches and the marks of its updates, in their order', async () => {
      const mark = (state: string) => ({ kind: 'questions', record: 'q', state })
      await store.append([update({ marks: [mark('raised'), mark('called')] }), update({ at: msLater(20) })])
      await store.append([update({ at: later, marks: [mark('answered')] })])
      await reopen()
      expect(await store.timeline('record.a')).toEqual({
        firstAt: at,
        lastAt: later,
        marks: [
          { ...mark('raised'), seq: 1, at },
          { ...mark('called'), seq: 1, at },
          { ...mark('answered'), seq: 3, at: later },
        ],
      })
      expect(await store.timeline('record.none')).toEqual({ firstAt: null, lastAt: null, marks: [] })
    })
  })

  describe('withdrawals', () => {
    const withdrawal = (id: string, caseId = 'a'): Withdrawal => ({
      id,
      caseId,
      document: `floor.${caseId}`,
      records: [{ kind: 'questions', id: 'slip' }],
      content: '{"text":"what it was"}',
      reason: 'a name',
      by: 'anna',
      role: 'moderator',
      at,
    })
    const mark = (record: string) => ({ kind: 'questions', record, state: 'raised' })
    const bytes = (value: number) => Uint8Array.of(value)

    beforeEach(async () => {
      await withCase('a', 'b')
      for (const document of ['floor.a', 'floor.b']) {
        await store.append([
          update({ document, update: bytes(1), marks: [mark('slip')] }),
          update({ document, update: bytes(2), author: 'bo', at: later, marks: [mark('other')] }),
        ])
        await store.append(Array.from({ length: checkpointEvery }, () => update({ document, update: bytes(3) })))
        await store.saveSnapshot(document, { seq: checkpointEvery, state: bytes(4) })
        await store.saveSnapshot(document, { seq: checkpointEvery + 2, state: bytes(5) })
      }
    })

    it('[S10] are found again until they are finished, and kept with what was withdrawn', async () => {
      await store.recordWithdrawal(withdrawal('w'))
      await reopen()
      expect(await store.openWithdrawals()).toEqual([withdrawal('w')])
      await store.finishWithdrawal('w', { updates: [], states: [], seen: [] })
      await reopen()
      expect(await store.openWithdrawals()).toEqual([])
      expect(await store.listWithdrawals('a')).toEqual([withdrawal('w')])
      expect(await store.listWithdrawals('b')).toEqual([])
    })

    it('[S10] replace bytes of the log and of every kept state, and nothing else', async () => {
      await store.recordWithdrawal(withdrawal('w'))
      expect((await store.keptStates('floor.a')).map(({ seq }) => seq)).toEqual([checkpointEvery, checkpointEvery + 2])
      await store.finishWithdrawal('w', {
        updates: [{ seq: 1, update: bytes(91) }],
        states: [
          { seq: checkpointEvery, state: bytes(94) },
          { seq: checkpointEvery + 2, state: bytes(95) },
        ],
        seen: [checkpointEvery, checkpointEvery + 2],
      })
      await reopen()
      const [first, second] = await store.log('floor.a', 0, 2)
      expect([first, second]).toEqual([
        { seq: 1, update: expect.anything(), author: 'anna', role: 'team', at },
        { seq: 2, update: expect.anything(), author: 'bo', role: 'team', at: later },
      ])
      expect([first, second].map((logged) => Array.from(logged?.update ?? []))).toEqual([[91], [2]])
      expect((await store.keptStates('floor.a')).map(({ state }) => Array.from(state))).toEqual([[94], [95]])
      expect(Array.from((await store.load('floor.a')).snapshot?.state ?? [])).toEqual([95])
      expect((await store.timeline('floor.a')).marks.map(({ record }) => record)).toEqual(['other'])
      expect((await store.keptStates('floor.b')).map(({ state }) => Array.from(state))).toEqual([[4], [5]])
      expect((await store.timeline('floor.b')).marks).toHaveLength(2)
    })

    it('[S10] leave no state of before: neither one that came in between nor one that comes later', async () => {
      const states = async () => (await store.keptStates('floor.a')).map(({ seq, state }) => [seq, ...state])
      const last = 2 * checkpointEvery + 4
      await store.append(Array.from({ length: checkpointEvery + 2 }, () => update({ document: 'floor.a' })))
      await store.recordWithdrawal(withdrawal('w'))
      // Another process keeps a state while the history is being rewritten.
      await store.saveSnapshot('floor.a', { seq: last - 2, state: bytes(6) })
      await store.finishWithdrawal('w', {
        updates: [],
        states: [{ seq: checkpointEvery, state: bytes(94) }],
        seen: [checkpointEvery, checkpointEvery + 2],
      })
      expect(await states()).toEqual([[checkpointEvery, 94]])
      // One that has not heard of the withdrawal yet.
      await store.saveSnapshot('floor.a', { seq: last - 1, state: bytes(7) })
      expect(await states()).toEqual([[checkpointEvery, 94]])
      await store.saveSnapshot('floor.a', { seq: last, state: bytes(8) })
      expect(await states()).toEqual([
        [checkpointEvery, 94],
        [last, 8],
      ])
    })

    it('[S3] refuses to finish what was never recorded', async () => {
      await expect(store.finishWithdrawal('none', { updates: [], states: [], seen: [] })).rejects.toBeInstanceOf(
        StoreConflict,
      )
    })

    it('[S6] go with their case', async () => {
      await store.recordWithdrawal(withdrawal('w'))
      await store.recordWithdrawal(withdrawal('x', 'b'))
      await store.eraseCase('a', receipt)
      expect(await store.listWithdrawals('a')).toEqual([])
      expect(await store.openWithdrawals()).toEqual([withdrawal('x', 'b')])
    })
  })

  describe('programmes and cases', () => {
    it('lists cases by rank with an empty projection until one is saved', async () => {
      await store.createProgramme({ id: 'day', label: 'Day', createdAt: at })
      await store.createCase(caseOf('second', 'b'))
      await store.createCase(caseOf('first', 'a'))
      expect((await store.listCases()).map(({ id, phase, openQuestions }) => ({ id, phase, openQuestions }))).toEqual([
        { id: 'first', phase: null, openQuestions: 0 },
        { id: 'second', phase: null, openQuestions: 0 },
      ])
    })

    it('keeps a saved projection beside what the case was created with', async () => {
      await withCase('a')
      const projection: CaseProjection = {
        label: 'Renamed',
        phase: 'follow-up',
        ear: 'right',
        deviceClass: 'active-middle-ear-implant',
        couplingSite: 'round-window',
        openQuestions: 3,
        contingenciesMet: 1,
        nextVisitDue: '2026-06-01',
        updatedAt: later,
      }
      await store.saveProjection('a', projection)
      await reopen()
      expect(await store.findCase('a')).toEqual({
        ...caseOf('a'),
        ...projection,
        plannedAt: null,
        breakBefore: '',
      })
    })

    it('[S3] refuses a second case of the same id, a case of no programme and a projection of no case', async () => {
      await withCase('a')
      await expect(store.createCase(caseOf('a'))).rejects.toBeInstanceOf(StoreConflict)
      await expect(store.createCase({ ...caseOf('b'), programme: 'none' })).rejects.toBeInstanceOf(StoreConflict)
      await expect(store.saveProjection('none', unsettled)).rejects.toBeInstanceOf(StoreConflict)
      expect(await store.listCases()).toHaveLength(1)
    })

    it('[S1] has nothing on at first, and keeps what was brought on over closing and opening', async () => {
      await withCase('a', 'b')
      const onNow = async () => (await store.listProgrammes())[0]?.onNow
      expect(await onNow()).toEqual({ isOn: false, lastOn: null, since: null })
      await store.bringOn('day', 'b', at)
      await reopen()
      expect(await onNow()).toEqual({ isOn: true, lastOn: 'b', since: at })
      await store.bringOn('day', null, later)
      await reopen()
      expect(await onNow()).toEqual({ isOn: false, lastOn: 'b', since: later })
    })

    it('[S6] has nothing on when the case that was on is erased', async () => {
      await withCase('a', 'b')
      await store.bringOn('day', 'a', at)
      await store.eraseCase('a', receipt)
      expect((await store.listProgrammes())[0]?.onNow).toEqual({ isOn: false, lastOn: null, since: at })
    })

    it('[S3] brings on no case of another programme, and nothing in a programme that is not there', async () => {
      await withCase('a')
      await store.createProgramme({ id: 'other', label: 'Other', createdAt: later })
      for (const [programme, caseId] of [
        ['other', 'a'],
        ['day', 'none'],
        ['none', null],
      ] as const)
        await expect(store.bringOn(programme, caseId, at)).rejects.toBeInstanceOf(StoreConflict)
      expect((await store.listProgrammes()).map(({ onNow }) => onNow.since)).toEqual([null, null])
    })

    it('[S1] gives cases an order, which a later case stands behind', async () => {
      await withCase('a', 'b', 'c')
      await store.orderCases('day', ['c', 'a', 'b'])
      await reopen()
      const listed = await store.listCases()
      expect(listed.map(({ id }) => id)).toEqual(['c', 'a', 'b'])
      expect(new Set(listed.map(({ rank }) => rank)).size).toBe(3)
    })

    it('[S3] refuses an order that names a case twice, one too few, or one of another programme', async () => {
      await withCase('a', 'b')
      for (const wrong of [['a', 'a'], ['a'], ['a', 'b', 'x'], []])
        await expect(store.orderCases('day', wrong)).rejects.toBeInstanceOf(StoreConflict)
      expect((await store.listCases()).map(({ id }) => id)).toEqual(['a', 'b'])
    })

    it('[S1] keeps when a case is planned and the break before it, and takes both away again', async () => {
      await withCase('a')
      const slot = { plannedAt: later, breakBefore: 'Coffee' }
      await store.saveSlot('a', slot)
      await store.saveProjection('a', unsettled)
      await reopen()
      expect(await store.findCase('a')).toMatchObject(slot)
      await store.saveSlot('a', { plannedAt: null, breakBefore: '' })
      expect(await store.findCase('a')).toMatchObject({ plannedAt: null, breakBefore: '' })
      await expect(store.saveSlot('none', slot)).rejects.toBeInstanceOf(StoreConflict)
    })

    it('[S8] keeps one ballot a person and vote, the last one, and none after the close', async () => {
      const cast = (participant: string, option: number, vote = 'v', confidence?: number) => {
        const ballot = confidence === undefined ? { option } : { option, confidence }
        return store.castBallot({ caseId: 'a', vote, participant, ballot, at })
      }
      await cast('bo', 1)
      await cast('anna', 0, 'v', 80)
      await cast('anna', 1)
      await cast('anna', 2, 'other vote')
      const counted = [
        { participant: 'anna', ballot: { option: 1 } },
        { participant: 'bo', ballot: { option: 1 } },
      ]
      await reopen()
      expect(await store.listBallots('a', 'v')).toEqual(counted)
      expect(await store.closeBallots('a', 'v')).toEqual(counted)
      await expect(cast('bo', 0)).rejects.toBeInstanceOf(StoreConflict)
      await reopen()
      await expect(cast('cy', 0)).rejects.toBeInstanceOf(StoreConflict)
      expect(await store.closeBallots('a', 'v')).toEqual(counted)
      await cast('anna', 0, 'other vote', 50)
      expect(await store.listBallots('a', 'other vote')).toEqual([
        { participant: 'anna', ballot: { option: 0, confidence: 50 } },
      ])
    })

    it('[S11] keeps whose an unnamed author is, and gives none of them to a second person', async () => {
      const asked = { caseId: 'a', author: 'unnamed-x', participant: 'anna', pictureAt: at }
      await store.addUnnamed(asked)
      await store.addUnnamed({ ...asked, author: 'unnamed-y', participant: 'bo', pictureAt: null })
      await expect(store.addUnnamed({ ...asked, participant: 'bo' })).rejects.toBeInstanceOf(StoreConflict)
      await reopen()
      expect(await store.listUnnamed('a')).toEqual([
        asked,
        { ...asked, author: 'unnamed-y', participant: 'bo', pictureAt: null },
      ])
      expect(await store.listUnnamed('b')).toEqual([])
    })

    it('[S13] keeps the bytes of a picture, and never replaces them', async () => {
      await withCase('a', 'b')
      await store.savePicture('a', 'one', photograph(1))
      await store.savePicture('b', 'one', photograph(2))
      await expect(store.savePicture('a', 'one', photograph(3))).rejects.toBeInstanceOf(StoreConflict)
      await expect(store.savePicture('none', 'one', photograph(1))).rejects.toBeInstanceOf(StoreConflict)
      await reopen()
      expect(plain(await store.picture('a', 'one'))).toEqual(photograph(1))
      expect(plain(await store.picture('b', 'one'))).toEqual(photograph(2))
      expect(await store.picture('a', 'two')).toBeNull()
      await store.dropPicture('a', 'one')
      expect(await store.picture('a', 'one')).toBeNull()
      expect(plain(await store.picture('b', 'one'))).toEqual(photograph(2))
    })

    it('[S13] finds what was withdrawn under its withdrawal alone, once that is finished', async () => {
      await withCase('a')
      await store.savePicture('a', 'one', photograph(1))
      await store.savePicture('a', 'two', photograph(2))
      await store.recordWithdrawal(takenBack('a'))
      expect(await store.withdrawnPicture('a', 'w-a')).toBeNull()
      await store.finishWithdrawal('w-a', { updates: [], states: [], seen: [] })
      await reopen()
      expect(await store.picture('a', 'two')).toBeNull()
      expect(plain(await store.withdrawnPicture('a', 'w-a'))).toEqual(photograph(2))
      expect(await store.withdrawnPicture('b', 'w-a')).toBeNull()
      expect(plain(await store.picture('a', 'one'))).toEqual(photograph(1))
      await store.dropPicture('a', 'two')
      expect(await store.withdrawnPicture('a', 'w-a')).not.toBeNull()
      await expect(store.savePicture('a', 'two', photograph(3))).rejects.toBeInstanceOf(StoreConflict)
    })

    it('[S12] keeps outcomes whole, in the order of their revisions, and tells what came since', async () => {
      await withCase('a', 'b')
      expect(await store.casesWithoutOutcome(10)).toEqual(['a', 'b'])
      await store.saveOutcome('a', outcome())
      await store.saveOutcome('b', outcome({ patient: 'Wren', ear: null, forecast: null, visits: [] }))
      expect(await store.casesWithoutOutcome(10)).toEqual([])
      await reopen()
      const [first, second] = await store.outcomesSince(0, 10)
      expect(first).toEqual({ ...outcome(), caseId: 'a', revision: first?.revision })
      expect(second).toMatchObject({ caseId: 'b', patient: 'Wren', ear: null, visits: [] })
      expect((await store.outcomesSince(0, 1)).map(({ caseId }) => caseId)).toEqual(['a'])
      await store.saveOutcome('a', outcome({ tags: 'late', visits: outcome().visits.slice(0, 1) }))
      const since = await store.outcomesSince(second?.revision ?? 0, 10)
      expect(since).toHaveLength(1)
      expect(since[0]).toMatchObject({ caseId: 'a', tags: 'late' })
      expect(since[0]?.visits).toEqual(outcome().visits.slice(0, 1))
      await expect(store.saveOutcome('none', outcome())).rejects.toBeInstanceOf(StoreConflict)
      expect(await store.outcomesSince(since[0]?.revision ?? 0, 10)).toEqual([])
    })

    it('[S12] gives outcomes that are saved at once a revision each', async () => {
      const ids = Array.from({ length: 12 }, (_, index) => `c${index}`)
      await withCase(...ids)
      await Promise.all(ids.map((id) => store.saveOutcome(id, outcome())))
      const kept = await store.outcomesSince(0, 100)
      expect(kept.map(({ caseId }) => caseId).toSorted()).toEqual(ids.toSorted())
      expect(new Set(kept.map(({ revision }) => revision)).size).toBe(ids.length)
    })

    it('[S6] erases everything of a case and nothing of another', async () => {
      await withCase('a', 'b')
      await store.createParticipant(person('anna'))
      for (const id of ['a', 'b']) {
        const invited = invitation(`to ${id}`, { kind: 'case', id })
        await store.createInvitation(invited)
        await store.join({ grant: grantBy(invited, 'anna'), newParticipant: null, newSession: null })
        await store.append([
          update({ document: `record.${id}`, clients: [1], marks: [{ kind: 'steps', record: 's', state: 'done' }] }),
          update({ document: `floor.${id}`, clients: [2] }),
        ])
        await store.append(Array.from({ length: checkpointEvery }, () => update({ document: `record.${id}` })))
        await store.saveSnapshot(`record.${id}`, { seq: checkpointEvery + 1, state: new Uint8Array([1]) })
      }
      for (const caseId of ['a', 'b']) {
        await store.castBallot({ caseId, vote: 'v', participant: 'anna', ballot: { option: 0 }, at })
        await store.closeBallots(caseId, 'v')
        await store.addUnnamed({ caseId, author: 'unnamed-x', participant: 'anna', pictureAt: null })
        await store.saveOutcome(caseId, outcome())
        for (const id of ['one', 'two']) await store.savePicture(caseId, id, photograph(id === 'one' ? 1 : 2))
        await store.recordWithdrawal(takenBack(caseId))
        await store.finishWithdrawal(`w-${caseId}`, { updates: [], states: [], seen: [checkpointEvery + 1] })
      }
      const erasure = await store.eraseCase('a', receipt)
      expect(erasure).toEqual({
        ...receipt,
        caseId: 'a',
        programme: 'day',
        counts: {
          updates: checkpointEvery + 2,
          marks: 1,
          states: 2,
          ballots: 1,
          withdrawals: 1,
          unnamedAuthors: 1,
          pictures: 2,
          invitations: 1,
          grants: 1,
        },
      })
      expect((await store.outcomesSince(0, 10)).map(({ caseId }) => caseId)).toEqual(['b'])
      expect(await store.listBallots('a', 'v')).toEqual([])
      expect(await store.listBallots('b', 'v')).toHaveLength(1)
      expect(await store.listUnnamed('a')).toEqual([])
      expect(await store.listUnnamed('b')).toHaveLength(1)
      expect(await store.picture('a', 'one')).toBeNull()
      expect(await store.withdrawnPicture('a', 'w-a')).toBeNull()
      expect(await store.picture('b', 'one')).not.toBeNull()
      expect(await store.withdrawnPicture('b', 'w-b')).not.toBeNull()
      await store.castBallot({ caseId: 'a', vote: 'v', participant: 'anna', ballot: { option: 0 }, at })
      for (const document of ['record.a', 'floor.a']) {
        expect(await store.load(document)).toEqual({ snapshot: null, updates: [], clientOwners: new Map() })
        expect(await store.loadAt(document, later)).toEqual({ snapshot: null, updates: [] })
        expect(await store.timeline(document)).toEqual({ firstAt: null, lastAt: null, marks: [] })
      }
      // An erased checkpoint, mark or visit would stand in the way of a new case under the same id.
      await store.append([update({ marks: [{ kind: 'steps', record: 's', state: 'done' }] })])
      expect((await store.loadAt('record.a', later)).snapshot).toBeNull()
      expect((await store.timeline('record.a')).marks).toHaveLength(1)
      expect((await store.listCases()).map(({ id }) => id)).toEqual(['b'])
      expect((await store.listInvitations()).map(({ id }) => id)).toEqual(['to b'])
      expect((await store.listGrants('anna')).map(({ scope }) => scope)).toEqual([{ kind: 'case', id: 'b' }])
      expect((await store.load('record.b')).snapshot?.seq).toBe(checkpointEvery + 1)
      expect((await store.loadAt('record.b', later)).snapshot?.seq).toBe(checkpointEvery + 1)
      expect((await store.timeline('record.b')).marks).toHaveLength(1)
      expect(await store.log('floor.b', 0, 10)).toHaveLength(1)
      await reopen()
      expect(await store.listErasures()).toEqual([erasure])
    })

    it('[S6] gives no receipt for what is not there, or is erased already', async () => {
      await withCase('a')
      await store.eraseCase('a', receipt)
      for (const id of ['a', 'none'])
        await expect(store.eraseCase(id, { ...receipt, id: 'second' })).rejects.toBeInstanceOf(StoreConflict)
      expect((await store.listErasures()).map(({ id }) => id)).toEqual(['receipt'])
    })

    it('lists those who wrote in a case, in either document', async () => {
      await withCase('a')
      for (const id of ['anna', 'bo', 'cy']) await store.createParticipant(person(id))
      await store.append([update({ clients: [1] }), update({ clients: [2] })])
      await store.append([update({ document: 'floor.a', author: 'bo', role: 'panel', clients: [3] })])
      await store.append([update({ document: 'floor.b', author: 'cy', role: 'panel', clients: [4] })])
      expect(await store.listAuthors('a')).toEqual([
        { participant: person('anna'), role: 'team' },
        { participant: person('bo'), role: 'panel' },
      ])
    })
  })

  describe('invitations, grants and sessions', () => {
    it('finds an invitation by the hash of its token, with what it covers', async () => {
      const scopes: Scope[] = [{ kind: 'installation' }, { kind: 'programme', id: 'day' }, { kind: 'case', id: 'a' }]
      for (const scope of scopes) {
        const invited = invitation(scope.kind, scope, { expiresAt: later, accessUntil: later })
        await store.createInvitation(invited)
        expect(await store.findInvitation(invited.tokenHash)).toEqual({ ...invited, revokedAt: null, uses: 0 })
      }
      expect(await store.findInvitation('another hash')).toBeNull()
    })

    it('[S3] writes a joining whole or not at all', async () => {
      const unknown = grantBy(invitation('unknown', { kind: 'installation' }), 'anna')
      const session = { hash: 'h', participant: 'anna', createdAt: at, lastSeen: at }
      await expect(
        store.join({ grant: unknown, newParticipant: person('anna'), newSession: session }),
      ).rejects.toBeInstanceOf(StoreConflict)
      expect(await store.findParticipant('anna')).toBeNull()
      expect(await store.findSession('h')).toBeNull()
    })

    it('keeps one grant for each person and link, the newest first', async () => {
      const panel = invitation('panel', { kind: 'case', id: 'a' })
      const team = invitation('team', { kind: 'case', id: 'a' }, { role: 'team' })
      for (const invited of [panel, team]) await store.createInvitation(invited)
      await store.join({ grant: grantBy(panel, 'anna'), newParticipant: person('anna'), newSession: null })
      await store.join({ grant: grantBy(team, 'anna'), newParticipant: null, newSession: null })
      expect((await store.listGrants('anna')).map(({ role }) => role)).toEqual(['team', 'panel'])
      await store.join({ grant: grantBy(panel, 'anna', later), newParticipant: null, newSession: null })
      expect((await store.listGrants('anna')).map(({ role }) => role)).toEqual(['panel', 'team'])
      expect((await store.findInvitation(panel.tokenHash))?.uses).toBe(2)
    })

    it('lists whose grants cover a case: its own, its programme’s and the owner’s', async () => {
      await withCase('a')
      const scopes: Record<string, Scope> = {
        owner: { kind: 'installation' },
        visitor: { kind: 'programme', id: 'day' },
        guest: { kind: 'case', id: 'a' },
        stranger: { kind: 'case', id: 'b' },
        tourist: { kind: 'programme', id: 'other' },
      }
      for (const [id, scope] of Object.entries(scopes)) {
        const invited = invitation(`for ${id}`, scope)
        await store.createInvitation(invited)
        await store.join({ grant: grantBy(invited, id), newParticipant: person(id), newSession: null })
      }
      const covering = await store.listGrantsCovering('a')
      expect(covering.map(({ participant }) => participant.id).sort()).toEqual(['guest', 'owner', 'visitor'])
      expect(await store.countOwners()).toBe(1)
    })

    it('revokes an invitation with its grants and says whose they were', async () => {
      const invited = invitation('i', { kind: 'installation' })
      await store.createInvitation(invited)
      await store.join({ grant: grantBy(invited, 'anna'), newParticipant: person('anna'), newSession: null })
      expect(await store.revokeInvitation('i', later)).toEqual(['anna'])
      expect(await store.listGrants('anna')).toEqual([])
      expect(await store.countOwners()).toBe(0)
      expect((await store.findInvitation(invited.tokenHash))?.revokedAt).toBe(later)
      expect(await store.revokeInvitation('unknown', later)).toBeNull()
    })

    it('keeps the instant of the first revocation', async () => {
      const invited = invitation('i', { kind: 'installation' })
      await store.createInvitation(invited)
      await store.revokeInvitation('i', at)
      await store.revokeInvitation('i', later)
      expect((await store.findInvitation(invited.tokenHash))?.revokedAt).toBe(at)
    })

    it('keeps a session until it is ended', async () => {
      const invited = invitation('i', { kind: 'case', id: 'a' })
      await store.createInvitation(invited)
      const session = { hash: 'h', participant: 'anna', createdAt: at, lastSeen: at }
      await store.join({ grant: grantBy(invited, 'anna'), newParticipant: person('anna'), newSession: session })
      await store.touchSession('h', later)
      await reopen()
      expect(await store.findSession('h')).toEqual({ ...session, lastSeen: later })
      await store.endSession('h')
      expect(await store.findSession('h')).toBeNull()
    })
  })

  it('changes nothing by a trial of whether it can write', async () => {
    await store.append([update()])
    await store.tryWriting()
    await reopen()
    expect((await store.load('record.a')).updates).toHaveLength(1)
    expect(await store.append([update()])).toEqual([2])
  })

  it('answers what was asked before closing and refuses what comes after', async () => {
    const asked = Array.from({ length: 600 }, () => store.append([update()]))
    await store.close()
    expect((await Promise.all(asked)).flat()).toHaveLength(600)
    await expect(store.append([update()])).rejects.toBeInstanceOf(StoreOutage)
    store = await place.open()
    expect(await store.append([update()])).toEqual([601])
  })
}
