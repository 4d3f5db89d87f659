import { type ReactNode, useId } from 'react'
import styles from './pane.module.css'

interface PaneProps {
  readonly title: string
  /** what stands at the end of the title line: buttons, counts */
  readonly actions?: ReactNode
  readonly children: ReactNode
}

/** A titled region of the board. Its content can ask for its own width: `@container pane (inline-size > 40rem)`. */
export function Pane({ title, actions, children }: PaneProps) {
  const titleId = useId()
  return (
    <section className={styles.pane} aria-labelledby={titleId}>
      <header className={styles.head}>
        <h2 className={styles.title} id={titleId}>
          {title}
        </h2>
        {actions !== undefined && <div className={styles.actions}>{actions}</div>}
      </header>
      <div className={styles.body}>{children}</div>
    </section>
  )
}
