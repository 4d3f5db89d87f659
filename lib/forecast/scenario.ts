import * as z from 'zod/mini'
import type { EarChange, Ligament } from '../devices/ear-changes.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import { type FixationPlace, type IncusStapesJoint, Scenario } from '../devices/scenario.ts'

/** SD of a partial contact whose loss was chosen, as a share of the loss. */
export const contactSdShare = 0.5

export const contactChoice: EvidenceSource = {
  id: 'partial-contact',
  citation:
    'A partial contact takes 0 to 20 dB at all frequencies alike; where nobody says how sure the loss is, half of it is taken as its SD. Contact is the largest single uncertainty at the round window',
  status: 'assumption',
}

const ligamentAt: { readonly [P in FixationPlace]: Ligament } = {
  malleus: 'malleus',
  incus: 'incus',
  'malleus-and-incus': 'malleus-and-incus',
  stapes: 'annular',
}

/**
 * The changes of the middle ear in a scenario; none when it leaves the chain and the contact as they are.
 * @throws RangeError when a field is out of its domain
 */
export function earChangesOf(scenario: Scenario): readonly EarChange[] {
  const { fixation, contact, malleusIncusSlack, incusStapes } = requireScenario(scenario)
  const changes: EarChange[] = []
  if (fixation !== undefined && fixation.times > 1)
    changes.push({ kind: 'ligament-stiffened', ligament: ligamentAt[fixation.at], times: fixation.times })
  if (contact !== undefined && contact.lossDb > 0) {
    const { lossDb, sdDb = contactSdShare * lossDb } = contact
    changes.push({ kind: 'contact-loss', lossDb, sdDb })
  }
  if (malleusIncusSlack !== undefined && malleusIncusSlack < 1)
    changes.push({ kind: 'joint-slack', joint: 'malleus-incus', factor: malleusIncusSlack })
  if (incusStapes !== undefined) changes.push(...jointChanges(incusStapes))
  return changes
}

function jointChanges(joint: IncusStapesJoint): readonly EarChange[] {
  switch (joint.kind) {
    case 'apart':
      return [{ kind: 'incus-stapes-apart' }]
    case 'slack':
      return joint.factor < 1 ? [{ kind: 'joint-slack', joint: 'incus-stapes', factor: joint.factor }] : []
    default:
      return joint satisfies never
  }
}

/** @throws RangeError when a field is out of its domain */
export function requireScenario(scenario: Scenario): Scenario {
  const { success, error } = Scenario.safeParse(scenario)
  if (!success) throw new RangeError(`the scenario is out of its domain: ${z.prettifyError(error)}`)
  return scenario
}
