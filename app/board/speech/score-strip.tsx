import type { CSSProperties } from 'react'
import styles from './score-strip.module.css'

interface ScoreStripProps {
  /** proportions, 0 to 1 */
  readonly proportion: number
  readonly low: number
  readonly high: number
}

/** A score with its interval between nothing and everything right; the numbers stand beside it. */
export function ScoreStrip({ proportion, low, high }: ScoreStripProps) {
  const places = { '--at': proportion, '--low': low, '--high': high } as CSSProperties
  return (
    <span className={styles.strip} style={places} aria-hidden="true">
      <span className={styles.range} />
      <span className={styles.mark} />
    </span>
  )
}
