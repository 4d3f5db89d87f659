import type { ChartFinding } from '@/app/audiogram/chart-findings.tsx'
import { levelOf } from '@/app/audiogram/layers.ts'
import type { FindingSentences } from '@/app/messages/en/findings.ts'
import type { Finding } from '@/lib/audiometry/findings.ts'
import { standingPoint } from '@/lib/board/audiograms.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { asDbHl } from '@/lib/units/levels.ts'
import { keyOfFinding } from './finding-groups.ts'
import { findingText } from './finding-text.ts'

/**
 * The findings that stand at one point, as marks on it; of several at one point the most urgent, whose label names all.
 * What concerns a whole curve, or both ears, has no point.
 * @param findings by urgency @param shown the tests on the chart, one an ear
 */
export function chartMarks(
  findings: readonly Finding[],
  shown: readonly HearingTest[],
  sentences: FindingSentences,
): readonly ChartFinding[] {
  const marks = new Map<string, ChartFinding>()
  for (const finding of findings) {
    const place = placeOf(finding, shown)
    if (place === undefined) continue
    const spot = `${place.ear} ${place.route} ${place.frequency}`
    const mark = marks.get(spot)
    const label = findingText(finding, sentences).what
    if (mark === undefined) marks.set(spot, { ...place, key: keyOfFinding(finding), severity: finding.severity, label })
    else marks.set(spot, { ...mark, label: `${mark.label} ${label}` })
  }
  return [...marks.values()]
}

type MarkPlace = Pick<ChartFinding, 'ear' | 'route' | 'masked' | 'frequency' | 'level'>

function placeOf({ where }: Finding, shown: readonly HearingTest[]): MarkPlace | undefined {
  const { ear, route, frequency } = where
  const test = shown.find((candidate) => candidate.ear === ear && candidate.condition === 'unaided')
  if (ear === undefined || frequency === undefined || test === undefined) return undefined
  const standing = standingPoint(test.points, route, frequency) ?? standingPoint(test.points, 'air', frequency)
  const level = standing && levelOf(standing.point)
  if (standing === undefined || level === undefined) return undefined
  const drawn = standingPoint(test.points, route, frequency) === undefined ? 'air' : route
  return { ear, route: drawn, masked: standing.masked, frequency, level }
}

/** The point that the chart shows when a finding is chosen in the list. */
export function chartPlaceOf(finding: Finding, shown: readonly HearingTest[]): ChartPlace | undefined {
  const mark = placeOf(finding, shown)
  return mark && { kind: 'pin', ear: mark.ear, frequency: mark.frequency, level: asDbHl(mark.level) }
}
