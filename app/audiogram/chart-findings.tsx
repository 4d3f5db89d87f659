import type { Severity } from '@/lib/audiometry/findings.ts'
import type { PointRoute } from '@/lib/board/records/hearing-test.ts'
import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'
import styles from './chart-findings.module.css'
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

/** What stands in the diamond. */
const letters: Readonly<Record<Severity, string>> = { urgent: '!', check: '?', remark: '' }

const diamond = (r: number): string => `M0 ${-r}L${r} 0L0 ${r}L${-r} 0Z`

/**
 * A diamond under the sign of the point, with "!" or "?" by severity: a shape that no audiogram sign has, and below the
 * point, because pins stand above. The list beside the chart says the same in words and is what the keyboard reaches.
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
  return (
    <g
      className={styles.finding}
      data-severity={severity}
      data-finding-mark={finding.key}
      data-frequency={frequency}
      data-pressable={onPress !== undefined}
      transform={`translate(${x} ${yOf(frame, level) + r * 2})`}
      onPointerDown={(event) => {
        if (onPress !== undefined) event.stopPropagation() // the chart would capture the pointer
      }}
      onPointerUp={() => onPress?.(finding.key)}
    >
      <title>{finding.label}</title>
      <circle className={styles.target} r={r * 1.6} />
      <path className={styles.shape} d={diamond(severity === 'remark' ? r * 0.7 : r)} />
      <text className={styles.letter} y={r * 0.5} fontSize={r * 1.4} textAnchor="middle">
        {letters[severity]}
      </text>
    </g>
  )
}
