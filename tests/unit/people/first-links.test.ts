import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownerLinks, programmeLinks } from '../../../server/first-links.ts'
import { hashToken } from '../../../server/people/identifiers.ts'
import { createPeople, type People } from '../../../server/people/people.ts'
import { sessionCookie } from '../../../server/people/session-cookie.ts'
import { createSigner } from '../../../server/people/signer.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import type { Store } from '../../../server/store/store.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

const signer = createSigner(new Uint8Array(32).fill(7))
let folder: string
let store: Store
let people: People

beforeEach(async () => {
  folder = await makeTemporaryFolder()
  store = await openSqliteStore(join(folder, 'store.db'))
  people = createPeople({ store, signer, cookie: sessionCookie(false), now: () => new Date('2026-03-02T08:00:00Z') })
})
afterEach(async () => {
  await store.close()
  await removeFolder(folder)
})

const tokenOf = ({ path }: { path: string }) => path.replace('/join/', '')
const revoke = async (link: { path: string }) => {
  const invitation = await store.findInvitation(hashToken(tokenOf(link)))
  await people.revoke(invitation?.id ?? '')
}

describe('the owner’s link', () => {
  it('is the same at each start until somebody has joined by it, and then no more', async () => {
    const [first] = await ownerLinks({ store, people, signer })
    expect(await ownerLinks({ store, people, signer })).toEqual([first])
    expect(await store.listInvitations()).toHaveLength(1)
    if (first === undefined) throw new RangeError('there should be a link')
    await people.join(tokenOf(first), { name: 'Anna', affiliation: 'Clinic' }, undefined)
    expect(await ownerLinks({ store, people, signer })).toEqual([])
  })

  it('is another after it was revoked, so that the installation can be opened again', async () => {
    const [first] = await ownerLinks({ store, people, signer })
    if (first === undefined) throw new RangeError('there should be a link')
    await revoke(first)
    const [second] = await ownerLinks({ store, people, signer })
    if (second === undefined) throw new RangeError('there should be a link')
    expect(second.path).not.toBe(first.path)
    expect(await people.inspectLink(tokenOf(second))).toMatchObject({ state: 'open' })
  })
})

describe('the links of a programme', () => {
  it('are one a role, each for the programme alone, and a revoked one does not come back', async () => {
    await store.createProgramme({ id: 'day', label: 'Day', createdAt: '2026-03-02T08:00:00Z' })
    const links = await programmeLinks({ store, people, signer }, 'day')
    expect(links.map(({ who }) => who)).toEqual(['moderator', 'team', 'panel', 'observer'])
    for (const link of links)
      expect(await people.inspectLink(tokenOf(link))).toMatchObject({
        state: 'open',
        invitation: { role: link.who, scope: { kind: 'programme', id: 'day' } },
      })
    const [moderator] = links
    if (moderator === undefined) throw new RangeError('there should be a link')
    await revoke(moderator)
    const again = await programmeLinks({ store, people, signer }, 'day')
    expect(again).toEqual(links.slice(1))
  })
})
