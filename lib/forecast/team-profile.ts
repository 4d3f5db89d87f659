import * as z from 'zod/mini'
import { DeviceProfile } from '../devices/device-profile.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'

/** The units that a team's profile is written in, said in the file so that nobody has to guess. */
const Units = z.strictObject({
  level: z.literal('dB HL'),
  gain: z.literal('dB'),
  length: z.literal('mm'),
  mass: z.literal('mg'),
})

/**
 * A team's own profile of a device, from its labelling: a data file. Beyond what every profile has, it says what the
 * labelling says: maximum output at 0.5, 1, 2 and 4 kHz, limits of candidacy, and the body with its mass.
 */
export const TeamProfile = z.strictObject({ units: Units, profile: DeviceProfile }).check(
  z.superRefine(({ profile }, context) => {
    const missing = (path: readonly (string | number)[], message: string) =>
      context.addIssue({ code: 'custom', path: ['profile', ...path], message, params: { fault: 'missing' } })
    const notLabelled = (path: readonly (string | number)[], id: string) => {
      const { status } = profile.sources.find((source) => source.id === id) ?? {}
      if (status !== undefined && status !== 'from labelling')
        context.addIssue({
          code: 'custom',
          path: ['profile', ...path, 'source'],
          message: 'its source has the status "from labelling"',
        })
    }
    if (profile.candidacy.limits === undefined) missing(['candidacy', 'limits'], 'limits of candidacy by frequency')
    notLabelled(['candidacy'], profile.candidacy.source)
    if (profile.bodies === undefined) missing(['bodies'], 'what is implanted: dimensions, mass and drive')
    for (const [index, body] of (profile.bodies ?? []).entries()) {
      if (body.massMg === undefined) missing(['bodies', index, 'massMg'], 'mass in mg')
      notLabelled(['bodies', index], body.source)
    }
    for (const [at, { outputs }] of profile.couplings.entries())
      for (const [index, output] of outputs.entries()) {
        const path = ['couplings', at, 'outputs', index]
        const known = (output.byFrequency ?? []).map(({ frequency }) => frequency)
        const lacking = fourFrequenciesHz.filter((frequency) => !known.some((other) => other === frequency))
        if (lacking.length > 0) missing([...path, 'byFrequency'], `maximum output at ${lacking.join(', ')} Hz`)
        notLabelled(path, output.source)
      }
  }),
)
export type TeamProfile = z.infer<typeof TeamProfile>

export type ProfileFaultCode =
  | 'missing'
  | 'unknown-field'
  | 'wrong-unit'
  | 'out-of-range'
  | 'wrong-kind'
  | 'contradiction'

/** What is wrong in a profile and where: `path` as in `profile.bodies.0.massMg`; `wanted` says what belongs there. */
export interface ProfileFault {
  readonly code: ProfileFaultCode
  readonly path: string
  readonly wanted: string
}

export type TeamProfileReading =
  | { readonly ok: true; readonly profile: DeviceProfile }
  | { readonly ok: false; readonly faults: readonly ProfileFault[] }

/**
 * Reads a team's own profile from parsed JSON.
 * @returns every fault with its place, and then no profile; what the labelling should say but does not is told once the
 * structure holds
 * Checked by: tests/unit/forecast/team-profile.test.ts
 */
export function readTeamProfile(content: unknown): TeamProfileReading {
  const parsed = TeamProfile.safeParse(content, { reportInput: true })
  if (parsed.success) return { ok: true, profile: parsed.data.profile }
  return { ok: false, faults: parsed.error.issues.flatMap(faultsOf) }
}

function faultsOf(issue: z.core.$ZodIssue): readonly ProfileFault[] {
  const path = issue.path.join('.')
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => ({
      code: 'unknown-field',
      path: path === '' ? key : `${path}.${key}`,
      wanted: 'nothing',
    }))
  return [{ code: codeOf(issue), path, wanted: wantedBy(issue) }]
}

function codeOf(issue: z.core.$ZodIssue): ProfileFaultCode {
  if (issue.code === 'custom') return issue.params?.fault === 'missing' ? 'missing' : 'contradiction'
  if (issue.input === undefined) return 'missing'
  if (issue.path[0] === 'units') return 'wrong-unit'
  return issue.code === 'too_small' || issue.code === 'too_big' ? 'out-of-range' : 'wrong-kind'
}

function wantedBy(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected
    case 'too_small':
      return `${issue.inclusive === false ? 'above' : 'at least'} ${issue.minimum}`
    case 'too_big':
      return `${issue.inclusive === false ? 'below' : 'at most'} ${issue.maximum}`
    case 'invalid_value':
      return issue.values.map(String).join(' or ')
    default:
      return issue.message
  }
}
