import type { CouplingSite } from '../devices/classes.ts'
import type { Actuator, Drive } from '../devices/drives.ts'
import type { EarChange } from '../devices/ear-changes.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { DriveChangeEstimate, MiddleEar } from '../middle-ear/drive-change.ts'
import { largestShownLossDb, shownLossDb } from '../middle-ear/shown-loss.ts'
import { asDbGain } from '../units/levels.ts'
import type { Range } from './distribution.ts'
import type { DriveLoss, LossModel } from './loss-model.ts'

const source: EvidenceSource = {
  id: 'middle-ear-network',
  citation:
    'Mechanical network of the middle ear after Kringlebotn 1988 and Rosowski 1993 with the cochlear input resistance of Aibara et al. 2001; the spread over models adds Hudde and Engel 1998 and Lobato',
  status: 'confirmed',
  readAt: 'github.com/jorgomezga/AVCA-ByO, rosowski.m, commit 82eeadf; Hear Res 152:100-109, abstract',
  reservation:
    'Joint losses calibrated for this board; contact lever of the incus body and masses of actuators from memory, unconfirmed; no motion in three dimensions; changes only, no absolute output',
}

const driveOf: Record<Actuator, Readonly<Record<Exclude<CouplingSite, 'skull'>, Drive>>> = {
  'fixed-frame': drivesBy('fixed-frame'),
  'floating-mass': drivesBy('floating-mass'),
}

function drivesBy(actuator: Actuator): Readonly<Record<Exclude<CouplingSite, 'skull'>, Drive>> {
  const by = 'actuator' as const
  return {
    'incus-long-process': { by, site: 'incus-long-process', actuator },
    'incus-body': { by, site: 'incus-body', actuator },
    'stapes-head': { by, site: 'stapes-head', actuator },
    'oval-window': { by, site: 'oval-window', actuator },
    'round-window': { by, site: 'round-window', actuator },
  }
}

const pastChain: DriveLoss = { lossDb: asDbGain(0), sdDb: 0, route: 'past-chain' }
const noWay: DriveLoss = { lossDb: asDbGain(largestShownLossDb), sdDb: 0, route: 'none' }

export interface MiddleEarScenario {
  /** what is different in the ear; none is an ear like those of the evidence */
  readonly changes: readonly EarChange[]
  readonly actuator: Actuator
  /** one network for all options and scenarios of a case, so that it remembers what they share */
  readonly middleEar: MiddleEar
}

/**
 * What a scenario takes from the drive at each coupling site, against the normal ear driven at the same site: 0 to 60 dB.
 * The ears of the evidence are taken to have been normal at the site. A device on the skull does not drive the chain and
 * loses nothing; a site that is not there, or from which nothing arrives, loses all that is ever shown, 60 dB.
 *
 * What it cannot know is told at `MiddleEar.driveChange`. A drive that grows because a resonance moved up is no gain here.
 * @returns a model whose `lossAt` throws RangeError above 10 kHz and for a change outside its domain
 * Checked by: tests/unit/forecast/middle-ear-loss.test.ts
 */
export function middleEarLoss({ changes, actuator, middleEar }: MiddleEarScenario): LossModel {
  return {
    id: 'middle-ear',
    source,
    lossAt(site, frequency) {
      if (site === 'skull') return pastChain
      const change = middleEar.driveChange(changes, driveOf[actuator][site], frequency)
      return change.kind === 'change' ? lossOf(change) : noWay
    },
  }
}

function lossOf({ bestDb, parameterSdDb, contactSdDb, setsDb, confidence }: DriveChangeEstimate): DriveLoss {
  return {
    lossDb: shownLossDb(bestDb),
    sdDb: Math.hypot(parameterSdDb, contactSdDb),
    acrossSetsDb: lossesOver(setsDb),
    confidence,
    route: 'through-chain',
  }
}

function lossesOver({ low, high, bySet }: DriveChangeEstimate['setsDb']): Range | undefined {
  if (Object.keys(bySet).length < 2) return undefined
  return { low: shownLossDb(high), high: shownLossDb(low) }
}
