import type { ReactNode } from 'react'
import styles from './screen-card.module.css'

interface ScreenCardProps {
  /** what sort of thing is shown: question, finding, steps */
  readonly kind: string
  /** beside the kind: a state, a count */
  readonly aside?: ReactNode
  readonly children: ReactNode
  /** below the content: who said it and when */
  readonly foot?: ReactNode
}

/** What everything on the main screen but the audiogram stands in: one heavy rule, the kind above it, room below. */
export function ScreenCard({ kind, aside, children, foot }: ScreenCardProps) {
  return (
    <section className={styles.card}>
      <header className={styles.head}>
        <h1 className={styles.kind}>{kind}</h1>
        {aside !== undefined && <div className={styles.aside}>{aside}</div>}
      </header>
      <div className={styles.body}>{children}</div>
      {foot !== undefined && <footer className={styles.foot}>{foot}</footer>}
    </section>
  )
}
