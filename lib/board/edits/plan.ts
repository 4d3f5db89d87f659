import type * as Y from 'yjs'
import { type CouplingSite, type DeviceClass, sitesOf } from '../../devices/classes.ts'
import type { Ear } from '../../units/frequencies.ts'
import { onlyId } from '../identity.ts'
import { readRecord } from '../reading.ts'
import type { EarCanal, EarChanges } from '../records/plan.ts'
import { type Content, type Pen, writeSingle } from './writing.ts'

export type PlanContent = Content<'plan'>

/** A plan in which nothing is decided but the ear. */
export const openPlan = (ear: Ear): PlanContent => ({
  ear,
  malleus: 'not-known',
  incus: 'not-known',
  stapes: 'not-known',
  approach: '',
  aim: '',
})

interface Choice {
  readonly deviceClass?: DeviceClass | undefined
  readonly couplingSite?: CouplingSite | undefined
  readonly earCanal?: EarCanal | undefined
  readonly earChanges?: EarChanges | undefined
}

type Rest = Omit<PlanContent, keyof Choice>
export type PlanPatch = Partial<Rest> & Choice

/**
 * Changes fields of the plan, or begins one for `ear`. Fields that are not named are not written, so that edits of
 * different fields by two people both stay. `undefined` takes a device class, a coupling site, the ear canal or the changes of the ear away.
 * A device class that does not couple at the site takes the site away; one with a single site brings it along.
 */
export function changePlan(doc: Y.Doc, pen: Pen, ear: Ear, patch: PlanPatch): void {
  writeSingle(doc, pen, 'plan', fitted({ ...planContent(doc, ear), ...patch }))
}

function planContent(doc: Y.Doc, ear: Ear): PlanContent {
  const plan = readRecord(doc, 'plan', onlyId)
  if (plan === undefined) return openPlan(ear)
  const { id: _id, author: _author, at: _at, ...content } = plan
  return content
}

function fitted({ deviceClass, couplingSite, earCanal, earChanges, ...others }: Rest & Choice): PlanContent {
  const rest = {
    ...others,
    ...(earCanal === undefined ? {} : { earCanal }),
    ...(earChanges === undefined || earChanges.length === 0 ? {} : { earChanges }),
  }
  if (deviceClass === undefined) return rest
  const sites = sitesOf[deviceClass]
  const site = sites.length === 1 ? sites[0] : sites.find((candidate) => candidate === couplingSite)
  return site === undefined ? { ...rest, deviceClass } : { ...rest, deviceClass, couplingSite: site }
}
