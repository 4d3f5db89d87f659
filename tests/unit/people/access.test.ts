import { describe, expect, it } from 'vitest'
import type { Role } from '../../../lib/board/roles.ts'
import { accessBy } from '../../../server/people/access.ts'
import type { Grant, Scope } from '../../../server/store/store.ts'

const now = new Date('2026-03-02T08:00:00Z')
const place = { id: 'heron', programme: 'day' }
const toCase: Scope = { kind: 'case', id: 'heron' }
const toDay: Scope = { kind: 'programme', id: 'day' }

const grant = (role: Role, scope: Scope, expiresAt: string | null = null): Grant => ({
  participant: 'anna',
  scope,
  role,
  grantedAt: '2026-03-01T08:00:00Z',
  expiresAt,
  invitation: 'i',
})

describe('access', () => {
  it('is none without a grant, and none to what a grant does not cover', () => {
    const elsewhere = [grant('team', { kind: 'case', id: 'plover' }), grant('team', { kind: 'programme', id: 'other' })]
    for (const grants of [[], elsewhere]) {
      const access = accessBy(grants, now)
      expect(access.roleIn(place)).toBeUndefined()
      expect(access.roleInProgramme('day')).toBeUndefined()
      expect(access.isOwner).toBe(false)
    }
  })

  it('is by the newest grant that covers the case, whichever kind it is', () => {
    expect(accessBy([grant('observer', toCase), grant('team', toDay)], now).roleIn(place)).toBe('observer')
    expect(accessBy([grant('team', toDay), grant('observer', toCase)], now).roleIn(place)).toBe('team')
  })

  it('falls back to an older grant when the newest has expired', () => {
    const grants = [grant('moderator', toCase, '2026-03-02T08:00:00Z'), grant('panel', toDay, '2026-03-02T08:00:01Z')]
    expect(accessBy(grants, now).roleIn(place)).toBe('panel')
  })

  it('of an owner is moderator everywhere, also beside a newer grant of less', () => {
    const access = accessBy([grant('observer', toCase), grant('moderator', { kind: 'installation' })], now)
    expect(access.isOwner).toBe(true)
    expect(access.roleIn(place)).toBe('moderator')
    expect(access.roleIn({ id: 'any', programme: 'any' })).toBe('moderator')
    expect(access.roleInProgramme('any')).toBe('moderator')
  })

  it('to one case of a programme gives no role in the programme, however much it gives in the case', () => {
    expect(accessBy([grant('moderator', toCase)], now).roleInProgramme('day')).toBeUndefined()
    expect(accessBy([grant('moderator', toCase), grant('panel', toDay)], now).roleInProgramme('day')).toBe('panel')
  })
})
