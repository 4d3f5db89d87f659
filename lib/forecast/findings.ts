import type { ActuatorSite } from '../devices/drives.ts'
import type { EarChange, Joint, Ligament } from '../devices/ear-changes.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { ForecastPlan, OssicleState } from './inputs.ts'

export type Ossicle = 'malleus' | 'incus' | 'stapes'

/**
 * Two statements about one ossicle that cannot both be true.
 * - `gone-yet-changed`: it is missing, and something is assumed to hold it, load it or change its joint;
 * - `present-yet-gone`: the plan says how it moves, a change says that it is missing;
 * - `mobile-yet-held`: the plan says that it is mobile, a finding holds it;
 * - `apart-yet-joined`: its joint is apart, and slack or grown together.
 */
export interface Contradiction {
  readonly code: 'findings-contradict'
  readonly ossicle: Ossicle
  readonly how: 'gone-yet-changed' | 'present-yet-gone' | 'mobile-yet-held' | 'apart-yet-joined'
}

export type Ossicles = Pick<ForecastPlan, Ossicle>

const ossicles = ['malleus', 'incus', 'stapes'] as const satisfies readonly Ossicle[]

/** The annular ligament needs no superstructure: a footplate is left to be fixed. */
const heldIn: Record<Ligament, readonly Ossicle[]> = {
  malleus: ['malleus'],
  incus: ['incus'],
  'malleus-and-incus': ['malleus', 'incus'],
  annular: ['stapes'],
}
const joinedBy: Record<Joint, readonly Ossicle[]> = {
  'malleus-incus': ['malleus', 'incus'],
  'incus-stapes': ['incus', 'stapes'],
}
const carriedBy: Record<ActuatorSite, readonly Ossicle[]> = {
  malleus: ['malleus'],
  'incus-body': ['incus'],
  'incus-long-process': ['incus'],
  'stapes-head': ['stapes'],
  'oval-window': [],
  'round-window': [],
}

/** Ossicles that have to be there for a change to mean anything. */
function needs(change: EarChange): readonly Ossicle[] {
  switch (change.kind) {
    case 'ligament-stiffened':
    case 'ligament-fixed':
      return change.ligament === 'annular' ? [] : heldIn[change.ligament]
    case 'incus-bridge':
    case 'incus-axis-compliant':
      return ['incus']
    case 'joint-slack':
    case 'joint-ankylosed':
      return joinedBy[change.joint]
    case 'mass-added':
      return carriedBy[change.site]
    default:
      return []
  }
}

function holds(change: EarChange): readonly Ossicle[] {
  if (change.kind === 'ligament-fixed') return heldIn[change.ligament]
  if (change.kind === 'ligament-stiffened') return change.times > 1 ? heldIn[change.ligament] : []
  return change.kind === 'incus-bridge' && change.stiffnessNPerM > 0 ? ['incus'] : []
}

const removes: { readonly [K in EarChange['kind']]?: Ossicle } = {
  'incus-missing': 'incus',
  'stapes-superstructure-missing': 'stapes',
}

const mobileStates: readonly OssicleState[] = ['mobile', 'stiff', 'fixed']

/**
 * The first contradiction between what the plan says of the ossicles, what was found and what is assumed to happen.
 * A scenario may hold what is mobile now: that is what it is for.
 * @param found changes of the ear as it is; @param assumed what a scenario adds
 * Checked by: tests/unit/forecast/findings.test.ts
 */
export function contradictionIn(
  plan: Ossicles,
  found: readonly EarChange[],
  assumed: readonly EarChange[] = [],
): Contradiction | undefined {
  const all = [...found, ...assumed]
  const gone = all.flatMap(({ kind }) => removes[kind] ?? [])
  const told = (ossicle: Ossicle, how: Contradiction['how']): Contradiction => ({
    code: 'findings-contradict',
    ossicle,
    how,
  })
  for (const ossicle of ossicles) {
    const isGone = gone.includes(ossicle) || plan[ossicle] === 'missing'
    if (isGone && all.some((change) => needs(change).includes(ossicle))) return told(ossicle, 'gone-yet-changed')
    if (gone.includes(ossicle) && mobileStates.includes(plan[ossicle])) return told(ossicle, 'present-yet-gone')
    if (plan[ossicle] === 'mobile' && found.some((change) => holds(change).includes(ossicle)))
      return told(ossicle, 'mobile-yet-held')
  }
  const isApart = all.some(({ kind }) => kind === 'incus-stapes-apart')
  const isJoined = all.some((change) => isOfJoint(change) && change.joint === 'incus-stapes')
  return isApart && isJoined ? told('stapes', 'apart-yet-joined') : undefined
}

const isOfJoint = (change: EarChange): change is Extract<EarChange, { joint: Joint }> =>
  change.kind === 'joint-slack' || change.kind === 'joint-ankylosed'

export const suggestionChoice: EvidenceSource = {
  id: 'changes-from-ossicles',
  citation:
    'Stiff is taken as ten times the stiffness of the ligament, fixed as a hundred times in the stapes and as nothing giving way in malleus and incus; eroded has no value here. Chosen by this board, no source',
  status: 'assumption',
}

/**
 * What the states of the ossicles say in the words of the network, as a suggestion: nothing is computed from it before
 * somebody takes it over. Source: `suggestionChoice`.
 */
export function changesSuggestedBy({ malleus, incus, stapes }: Ossicles): readonly EarChange[] {
  const bothFixed = malleus === 'fixed' && incus === 'fixed'
  const heads: readonly EarChange[] = bothFixed
    ? [{ kind: 'ligament-fixed', ligament: 'malleus-and-incus' }]
    : [...heldHead('malleus', malleus), ...heldHead('incus', incus)]
  return [
    ...heads,
    ...(incus === 'missing' ? [{ kind: 'incus-missing' } as const] : []),
    ...(stapes === 'stiff' ? [{ kind: 'ligament-stiffened', ligament: 'annular', times: 10 } as const] : []),
    ...(stapes === 'fixed' ? [{ kind: 'ligament-stiffened', ligament: 'annular', times: 100 } as const] : []),
    ...(stapes === 'missing' ? [{ kind: 'stapes-superstructure-missing' } as const] : []),
  ]
}

function heldHead(ligament: 'malleus' | 'incus', state: OssicleState): readonly EarChange[] {
  if (state === 'stiff') return [{ kind: 'ligament-stiffened', ligament, times: 10 }]
  return state === 'fixed' ? [{ kind: 'ligament-fixed', ligament }] : []
}
