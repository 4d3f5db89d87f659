import { Ear } from '../units/frequencies.ts'
import { type AudiometerLimits, typeOneLimits } from './audiometer-limits.ts'
import { requireAudiogram } from './domain.ts'
import type { Finding, Severity } from './findings.ts'
import { type MaskingProcedure, maskingFindings } from './masking-findings.ts'
import { crossHearingFindings, earFindings } from './plausibility-findings.ts'
import { type EarlierTest, swappedEars } from './swapped-ears.ts'
import { requireTestedEars, type TestedEars } from './tested-ear.ts'

export interface Review {
  readonly ears: TestedEars
  /** The patient's earlier tests, latest last; the last one is compared. */
  readonly earlier?: readonly EarlierTest[]
  readonly procedure?: MaskingProcedure
  readonly limits?: AudiometerLimits
}

const urgency: Readonly<Record<Severity, number>> = { urgent: 0, check: 1, remark: 2 }

/**
 * Everything in one test of both ears that a careful colleague would point at: the urgent first, then by place.
 * @throws RangeError naming a level or frequency that is out of domain
 */
export function reviewTest({
  ears,
  earlier = [],
  procedure = 'bsa-2018',
  limits = typeOneLimits,
}: Review): readonly Finding[] {
  requireTestedEars(ears)
  const found = [
    ...maskingFindings(ears, procedure),
    ...crossHearingFindings(ears),
    ...Ear.options.flatMap((ear) => earFindings(ear, ears[ear], limits)),
    ...againstEarlier(ears, earlier.at(-1)),
  ]
  return found.toSorted(byUrgencyAndPlace)
}

function againstEarlier({ right, left }: TestedEars, earlier: EarlierTest | undefined): readonly Finding[] {
  if (earlier === undefined) return []
  requireAudiogram('earlier right air', earlier.air.right)
  requireAudiogram('earlier left air', earlier.air.left)
  return swappedEars({ right: right.air, left: left.air }, earlier)
}

function byUrgencyAndPlace(a: Finding, b: Finding): number {
  return (
    urgency[a.severity] - urgency[b.severity] ||
    compare(a.id, b.id) ||
    compare(a.where.ear ?? '', b.where.ear ?? '') ||
    compare(a.where.route, b.where.route) ||
    (a.where.frequency ?? 0) - (b.where.frequency ?? 0)
  )
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
