import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { CaseProjection } from '../../../lib/interchange/api.ts'
import {
  type Grant,
  type NewCase,
  type NewInvitation,
  type Participant,
  type Scope,
  type Store,
  StoreConflict,
  StoreOutage,
  type UpdateEntry,
} from '../../../server/store/store.ts'

/** A place where a store lives: it can be opened, closed and opened again. */
export interface StorePlace {
  open(): Promise<Store>
  dispose(): Promise<void>
}

const at = '2026-03-02T08:00:00.000Z'
const later = '2026-03-02T09:00:00.000Z'

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
const grantBy = ({ id, role, scope, accessUntil }: NewInvitation, participant: string, grantedAt = at): Grant => ({
  participant,
  scope,
  role,
  grantedAt,
  expiresAt: accessUntil,
  invitation: id,
})

/** The rules S1 to S6 of server/store/store.ts and the directory behind the lists, for every implementation alike. */
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
      expect(await store.findCase('a')).toEqual({ ...caseOf('a'), ...projection })
    })

    it('[S3] refuses a second case of the same id, a case of no programme and a projection of no case', async () => {
      await withCase('a')
      await expect(store.createCase(caseOf('a'))).rejects.toBeInstanceOf(StoreConflict)
      await expect(store.createCase({ ...caseOf('b'), programme: 'none' })).rejects.toBeInstanceOf(StoreConflict)
      await expect(store.saveProjection('none', unsettled)).rejects.toBeInstanceOf(StoreConflict)
      expect(await store.listCases()).toHaveLength(1)
    })

    it('[S6] erases everything of a case and nothing of another', async () => {
      await withCase('a', 'b')
      await store.createParticipant(person('anna'))
      for (const id of ['a', 'b']) {
        const invited = invitation(`to ${id}`, { kind: 'case', id })
        await store.createInvitation(invited)
        await store.join({ grant: grantBy(invited, 'anna'), newParticipant: null, newSession: null })
        await store.append([
          update({ document: `record.${id}`, clients: [1] }),
          update({ document: `floor.${id}`, clients: [2] }),
        ])
        await store.saveSnapshot(`record.${id}`, { seq: 1, state: new Uint8Array([1]) })
      }
      await store.eraseCase('a')
      for (const document of ['record.a', 'floor.a']) {
        expect(await store.load(document)).toEqual({ snapshot: null, updates: [], clientOwners: new Map() })
      }
      expect((await store.listCases()).map(({ id }) => id)).toEqual(['b'])
      expect((await store.listInvitations()).map(({ id }) => id)).toEqual(['to b'])
      expect((await store.listGrants('anna')).map(({ scope }) => scope)).toEqual([{ kind: 'case', id: 'b' }])
      expect((await store.load('record.b')).snapshot?.seq).toBe(1)
      expect(await store.log('floor.b', 0, 10)).toHaveLength(1)
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

  it('answers what was asked before closing and refuses what comes after', async () => {
    const asked = Array.from({ length: 600 }, () => store.append([update()]))
    await store.close()
    expect((await Promise.all(asked)).flat()).toHaveLength(600)
    await expect(store.append([update()])).rejects.toBeInstanceOf(StoreOutage)
    store = await place.open()
    expect(await store.append([update()])).toEqual([601])
  })
}
