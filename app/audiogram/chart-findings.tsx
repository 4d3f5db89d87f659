import type { Severity } from '@/lib/audiometry/findings.ts'
import type { PointRoute } from '@/lib/board/records/hearing-test.ts'
import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'
import styles from './chart-findings.module.css'
import { diamond, FindingSign } from './finding-sign.tsx'
import { type ChartFrame, symbolRadius, xOf, yOf } from './geometry.ts'
import { symbolFor } from './symbols.ts'

/** A mark on a point of the chart that somebody should look at. */
export interface ChartFinding {
  /** of the finding in the list beside the chart */
  readonly key: string
  readonly severity: Severity
  readonly ear: Ear
  readonly route: PointRoute
  readonly masked: boolean
  readonly frequency: FrequencyHz
  /** dB HL */
  readonly level: number
  /** what was found */
  readonly label: string
}

interface FindingMarksProps {
  readonly findings: readonly ChartFinding[]
  readonly frame: ChartFrame
  /** without it the marks let every press through to the chart */
  readonly onPress: ((key: string) => void) | undefined
}

/** From the middle of a mark to its corner, in pixels: never smaller, so that a phone shows what it says. */
const leastReach = 8

/**
 * A diamond under the sign of the point: below it, because pins stand above. The list beside the chart says the same in
 * words and is what the keyboard reaches.
 */
export function FindingMarks({ findings, frame, onPress }: FindingMarksProps) {
  return findings.map((finding) => (
    <FindingMark
      key={`${finding.ear} ${finding.route} ${finding.frequency}`}
      finding={finding}
      frame={frame}
      onPress={onPress}
    />
  ))
}

function FindingMark({
  finding,
  frame,
  onPress,
}: { finding: ChartFinding } & Pick<FindingMarksProps, 'frame' | 'onPress'>) {
  const { ear, route, masked, frequency, level, severity } = finding
  const sign = symbolFor({ ear, route, masked, noResponse: false })
  const r = symbolRadius(frame)
  const side = sign.side === 'on-line' ? 0 : sign.side === 'left' ? -1 : 1
  const x = xOf(frame, frequency) + side * sign.offset * r
  const reach = Math.max(leastReach, r * 1.1)
  return (
    <g
      className={styles.finding}
      data-severity={severity}
      data-finding-mark={finding.key}
      data-frequency={frequency}
      data-pressable={onPress !== undefined}
      transform={`translate(${x} ${yOf(frame, level) + r * 1.3 + reach})`}
      onPointerDown={(event) => {
        if (onPress !== undefined) event.stopPropagation() // the chart would capture the pointer
      }}
      onPointerUp={() => onPress?.(finding.key)}
    >
      <title>{finding.label}</title>
      <circle className={styles.target} r={reach * 1.4} />
      <path className={styles.halo} d={diamond(reach)} />
      <FindingSign severity={severity} reach={reach} />
    </g>
  )
}
