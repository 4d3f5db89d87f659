import styles from './crossed-out.module.css'

/** Two strokes from corner to corner. Drawn, not a background: browsers leave backgrounds out when they print. */
export function CrossedOut() {
  return (
    <svg className={styles.cross} viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      <path d="M0 0L100 100M0 100L100 0" vectorEffect="non-scaling-stroke" />
    </svg>
  )
}
