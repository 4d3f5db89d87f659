import styles from './badge.module.css'
import { VisuallyHidden } from './visually-hidden.tsx'

interface BadgeProps {
  readonly count: number
  /** the number in words of what is counted, for people who do not see where it stands */
  readonly label: string
}

export function Badge({ count, label }: BadgeProps) {
  return (
    <span className={styles.badge}>
      <span aria-hidden="true">{count}</span>
      <VisuallyHidden>{label}</VisuallyHidden>
    </span>
  )
}
