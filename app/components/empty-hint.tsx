import type { ReactNode } from 'react'
import styles from './empty-hint.module.css'

interface EmptyHintProps {
  /** what is not there yet */
  readonly title: string
  /** how it comes to be there */
  readonly children?: ReactNode
}

export function EmptyHint({ title, children }: EmptyHintProps) {
  return (
    <div className={styles.hint}>
      <p className={styles.title}>{title}</p>
      {children !== undefined && <div className={styles.text}>{children}</div>}
    </div>
  )
}
