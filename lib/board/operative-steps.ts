import type { CouplingSite } from '../devices/classes.ts'
import type { OperativeStep } from './records/operative-step.ts'

/** What is said of a step; the sentences of the usual ones are in app/messages, in the language of the page. */
export type StepText = Pick<OperativeStep, 'title' | 'check' | 'hazard'>

/**
 * What has to be done before each usual step: one of each group, the first that an approach has. From memory, unconfirmed:
 * textbook order that nobody has held against a publication. Labelling prevails.
 */
const prerequisites = {
  identity: [],
  anaesthesia: [['identity']],
  marking: [['anaesthesia']],
  incision: [['marking']],
  mastoidectomy: [['incision']],
  antrotomy: [['mastoidectomy']],
  posteriorTympanotomy: [['mastoidectomy'], ['antrotomy']],
  transcanal: [['incision']],
  windowNiche: [['posteriorTympanotomy']],
  ossicles: [['antrotomy', 'posteriorTympanotomy', 'transcanal']],
  fixation: [['ossicles']],
  bed: [['mastoidectomy']],
  skullBed: [['incision']],
  coagulation: [['bed', 'skullBed']],
  implant: [['coagulation']],
  // The way to the site is open before anything is attached there.
  actuator: [
    ['ossicles'],
    ['fixation'],
    ['implant'],
    ['windowNiche', 'posteriorTympanotomy', 'antrotomy', 'transcanal'],
  ],
  couplingTest: [['actuator']],
  stabilise: [['couplingTest']],
  closure: [['stabilise']],
  skullClosure: [['implant']],
  function: [['closure', 'skullClosure']],
} as const satisfies Record<string, readonly (readonly string[])[]>

export type UsualStepName = keyof typeof prerequisites
export const usualStepNames = Object.keys(prerequisites) as UsualStepName[]

const opening = ['identity', 'anaesthesia', 'marking', 'incision'] as const
const coupling = [
  'ossicles',
  'fixation',
  'bed',
  'coagulation',
  'implant',
  'actuator',
  'couplingTest',
  'stabilise',
  'closure',
  'function',
] as const

const approaches = {
  antrotomy: [...opening, 'mastoidectomy', 'antrotomy', ...coupling],
  'posterior-tympanotomy': [...opening, 'mastoidectomy', 'antrotomy', 'posteriorTympanotomy', ...coupling],
  'round-window': [...opening, 'mastoidectomy', 'antrotomy', 'posteriorTympanotomy', 'windowNiche', ...coupling],
  transcanal: [...opening, 'transcanal', ...coupling],
  skull: [...opening, 'skullBed', 'coagulation', 'implant', 'skullClosure', 'function'],
} as const satisfies Record<string, readonly UsualStepName[]>

export type Approach = keyof typeof approaches
export const approachNames = Object.keys(approaches) as Approach[]

export interface UsualStep {
  readonly name: UsualStepName
  /** earlier steps of the same approach */
  readonly needs: readonly UsualStepName[]
}

/** The usual steps of a generic approach with their prerequisites, in order. */
export function typicalSteps(approach: Approach): readonly UsualStep[] {
  const names: readonly UsualStepName[] = approaches[approach]
  return names.map((name) => ({ name, needs: needsAmong(name, names) }))
}

/** What a step needs among these; of a prerequisite that an approach does without, what that one would need in turn. */
function needsAmong(name: UsualStepName, present: readonly UsualStepName[]): UsualStepName[] {
  const groups: readonly (readonly UsualStepName[])[] = prerequisites[name]
  const needs = groups.flatMap((group) => {
    const first = group.find((need) => present.includes(need))
    return first === undefined ? group.slice(0, 1).flatMap((absent) => needsAmong(absent, present)) : [first]
  })
  return [...new Set(needs)]
}

/** The approach that usually reaches a site. */
export const approachTo: Record<CouplingSite, Approach> = {
  'incus-long-process': 'posterior-tympanotomy',
  'incus-body': 'antrotomy',
  'stapes-head': 'posterior-tympanotomy',
  'oval-window': 'posterior-tympanotomy',
  'round-window': 'round-window',
  skull: 'skull',
}
