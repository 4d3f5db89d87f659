import { describe, expect, it } from 'vitest'
import type { DeviceProfile } from '../../../lib/devices/device-profile.ts'
import type { EarChange } from '../../../lib/devices/ear-changes.ts'
import type { Scenario } from '../../../lib/devices/scenario.ts'
import { type EarOption, earOptions, latestProfiles } from '../../../lib/forecast/ear-options.ts'
import { deviceProfiles, optionsOf } from '../../../lib/forecast/profiles.ts'
import { createMiddleEar } from '../../../lib/middle-ear/drive-change.ts'
import { inputs, planned } from '../../fixtures/forecast-ear.ts'

const middleEar = createMiddleEar()
const given = { ...inputs(), plan: planned() }
const under = (scenario: Scenario, found: readonly EarChange[] = []) =>
  earOptions(given, { scenario, actuator: 'floating-mass', found, middleEar })

function mean({ outcome }: EarOption): number | undefined {
  const aided = outcome.ok ? outcome.forecast.fourTone.aidedThreshold : undefined
  return aided?.kind === 'estimate' ? aided.value : undefined
}

describe('the options of an ear', () => {
  it('are every class at every site, once for each profile', () => {
    const [own] = deviceProfiles
    if (own === undefined) throw new Error('no profile')
    const second: DeviceProfile = { ...own, id: 'own-profile' }
    const rows = earOptions(
      { ...given, profiles: [...deviceProfiles, second] },
      { scenario: {}, actuator: 'floating-mass', middleEar },
    )
    expect(rows.map(({ option }) => option)).toEqual([...optionsOf(deviceProfiles), ...optionsOf([own])])
    expect(rows.at(-1)?.profile.id).toBe('own-profile')
    expect(mean(rows[0] as EarOption)).toBe(mean(rows[optionsOf(deviceProfiles).length] as EarOption))
  })

  it('lose by a stapes that is held, except on the skull', () => {
    const before = under({})
    const after = under({ fixation: { at: 'stapes', times: 100 } })
    for (const [index, row] of after.entries()) {
      const was = mean(before[index] as EarOption)
      const skull = row.option.couplingSite === 'skull'
      expect([row.option, skull ? mean(row) === was : (mean(row) ?? 0) > (was ?? 0)]).toEqual([row.option, true])
    }
  })

  it('have no number where findings contradict each other, and say which', () => {
    const found: EarChange[] = [{ kind: 'incus-missing' }, { kind: 'ligament-fixed', ligament: 'incus' }]
    for (const { outcome } of under({}, found))
      expect(outcome).toEqual({
        ok: false,
        refusal: { code: 'findings-contradict', ossicle: 'incus', how: 'gone-yet-changed' },
      })
  })

  it('have no number where the inner ear ages and nobody knows how old it is', () => {
    for (const { outcome } of under({ innerEarYears: 10 }))
      expect(outcome).toEqual({ ok: false, refusal: { code: 'age-not-known' } })
  })
})

it('an own profile counts by its highest version', () => {
  const [own] = deviceProfiles
  if (own === undefined) throw new Error('no profile')
  const versions = [2, 3, 1].map((version): DeviceProfile => ({ ...own, id: 'own', version }))
  expect(latestProfiles([...versions, own]).map(({ id, version }) => `${id} ${version}`)).toEqual([
    'own 3',
    `${own.id} ${own.version}`,
  ])
})
