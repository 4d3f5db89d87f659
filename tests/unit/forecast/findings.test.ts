import { describe, expect, it } from 'vitest'
import type { EarChange } from '../../../lib/devices/ear-changes.ts'
import { changesSuggestedBy, contradictionIn, type Ossicles } from '../../../lib/forecast/findings.ts'
import { earChangesOf } from '../../../lib/forecast/scenario.ts'

const chain = (of: Partial<Ossicles> = {}): Ossicles => ({
  malleus: 'not-known',
  incus: 'not-known',
  stapes: 'not-known',
  ...of,
})
const gone: EarChange = { kind: 'incus-missing' }
const held: EarChange = { kind: 'ligament-fixed', ligament: 'incus' }

describe('findings contradict each other', () => {
  it.each<[string, Ossicles, readonly EarChange[], string, string]>([
    ['an incus that is missing and fixed', chain(), [gone, held], 'incus', 'gone-yet-changed'],
    [
      'a missing incus in an attic block',
      chain({ incus: 'missing' }),
      [{ kind: 'ligament-fixed', ligament: 'malleus-and-incus' }],
      'incus',
      'gone-yet-changed',
    ],
    [
      'a joint of an incus that is missing',
      chain({ incus: 'missing' }),
      [{ kind: 'joint-slack', joint: 'malleus-incus', factor: 0.5 }],
      'incus',
      'gone-yet-changed',
    ],
    [
      'a mass on a stapes head that is missing',
      chain({ stapes: 'missing' }),
      [{ kind: 'mass-added', site: 'stapes-head', massMg: 25 }],
      'stapes',
      'gone-yet-changed',
    ],
    ['a mobile incus that is missing', chain({ incus: 'mobile' }), [gone], 'incus', 'present-yet-gone'],
    ['a fixed incus that is missing', chain({ incus: 'fixed' }), [gone], 'incus', 'present-yet-gone'],
    [
      'a mobile stapes with a stiff annular ligament',
      chain({ stapes: 'mobile' }),
      [{ kind: 'ligament-stiffened', ligament: 'annular', times: 10 }],
      'stapes',
      'mobile-yet-held',
    ],
    [
      'a joint that is apart and slack',
      chain(),
      [{ kind: 'incus-stapes-apart' }, { kind: 'joint-slack', joint: 'incus-stapes', factor: 0.5 }],
      'stapes',
      'apart-yet-joined',
    ],
  ])('%s', (_, plan, found, ossicle, how) => {
    expect(contradictionIn(plan, found)).toEqual({ code: 'findings-contradict', ossicle, how })
  })

  it('when a fixation is to come back at an ossicle that is missing', () => {
    const assumed = earChangesOf({ fixation: { at: 'incus', times: 100 } })
    expect(contradictionIn(chain(), [gone], assumed)).toMatchObject({ ossicle: 'incus', how: 'gone-yet-changed' })
  })
})

describe('findings go together', () => {
  it.each<[string, Ossicles, readonly EarChange[]]>([
    [
      'a footplate that is fixed below a missing superstructure',
      chain({ stapes: 'missing' }),
      [{ kind: 'stapes-superstructure-missing' }, { kind: 'ligament-fixed', ligament: 'annular' }],
    ],
    [
      'a missing incus in an open cavity',
      chain({ malleus: 'stiff', incus: 'missing', stapes: 'mobile' }),
      [gone, { kind: 'cavity-open' }],
    ],
    [
      'a ligament as stiff as normal',
      chain({ stapes: 'mobile' }),
      [{ kind: 'ligament-stiffened', ligament: 'annular', times: 1 }],
    ],
  ])('%s', (_, plan, found) => {
    expect(contradictionIn(plan, found)).toBeUndefined()
  })

  it('when a scenario holds what is mobile now', () => {
    const assumed = earChangesOf({ fixation: { at: 'stapes', times: 100 } })
    expect(contradictionIn(chain({ stapes: 'mobile' }), [], assumed)).toBeUndefined()
  })

  it('whatever is suggested for the states of the ossicles', () => {
    const states = ['mobile', 'stiff', 'fixed', 'eroded', 'missing', 'not-known'] as const
    for (const malleus of states)
      for (const incus of states)
        for (const stapes of states) {
          const plan = { malleus, incus, stapes }
          expect([plan, contradictionIn(plan, changesSuggestedBy(plan))]).toEqual([plan, undefined])
        }
  })
})

describe('a suggestion', () => {
  it('is nothing for a chain of which nothing is said, or that moves', () => {
    expect(changesSuggestedBy(chain())).toEqual([])
    expect(changesSuggestedBy({ malleus: 'mobile', incus: 'eroded', stapes: 'mobile' })).toEqual([])
  })
  it('takes heads that are both fixed as grown together', () => {
    expect(changesSuggestedBy(chain({ malleus: 'fixed', incus: 'fixed', stapes: 'stiff' }))).toEqual([
      { kind: 'ligament-fixed', ligament: 'malleus-and-incus' },
      { kind: 'ligament-stiffened', ligament: 'annular', times: 10 },
    ])
  })
})
