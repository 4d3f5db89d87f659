import type { Severity } from '@/lib/audiometry/findings.ts'
import styles from './finding-sign.module.css'

interface FindingSignProps {
  readonly severity: Severity
  /** from the middle to a corner, in the units of the drawing */
  readonly reach: number
}

/**
 * A diamond around (0, 0), which no audiogram sign is: full with a bar and a dot where it is urgent, its lower half full
 * where something is to be checked, small and empty for a remark. How full it is says the urgency without the colour.
 */
export function FindingSign({ severity, reach }: FindingSignProps) {
  const r = severity === 'remark' ? reach * 0.7 : reach
  return (
    <g className={styles.sign} data-severity={severity}>
      <path className={styles.outline} d={diamond(r)} />
      {severity === 'check' && <path className={styles.half} d={`M${-r} 0L${r} 0L0 ${r}Z`} />}
      {severity === 'urgent' && <path className={styles.bar} d={bar(r)} />}
    </g>
  )
}

export const diamond = (r: number): string => `M0 ${-r}L${r} 0L0 ${r}L${-r} 0Z`

/** A bar with a dot under it, drawn so that it keeps its weight where letters become a blot. */
function bar(r: number): string {
  const half = r * 0.13
  const box = (top: number, bottom: number) => `M${-half} ${top * r}H${half}V${bottom * r}H${-half}Z`
  return box(-0.58, 0.12) + box(0.32, 0.58)
}

/** The same sign beside a line of text. */
export function FindingSignInline({ severity }: Pick<FindingSignProps, 'severity'>) {
  return (
    <svg className={styles.inline} viewBox="-9 -9 18 18" aria-hidden="true">
      <FindingSign severity={severity} reach={8} />
    </svg>
  )
}
