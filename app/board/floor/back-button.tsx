import { VisuallyHidden } from '@/app/components/visually-hidden.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import styles from './back-button.module.css'
import type { FloorDesk } from './floor-desk.ts'

interface BackButtonProps {
  readonly thread: Thread
  readonly desk: FloorDesk
  readonly mayBack: boolean
  readonly tabIndex: 0 | -1
}

/** How many back a question; pressed by those who may, to add or take back their own support. */
export function BackButton({ thread, desk, mayBack, tabIndex }: BackButtonProps) {
  const { floor } = useMessages()
  const count = thread.backers.length
  const tally = (
    <>
      <span className={styles.sign} aria-hidden="true">
        ▲
      </span>
      <span aria-hidden="true">{count}</span>
      <VisuallyHidden>{floor.thread.backers(count)}</VisuallyHidden>
    </>
  )
  if (!mayBack) return <span className={styles.tally}>{tally}</span>
  const isBacked = thread.backers.includes(desk.me)
  return (
    <button
      type="button"
      className={styles.tally}
      aria-pressed={isBacked}
      tabIndex={tabIndex}
      onClick={() => desk.acts.back(thread)}
    >
      {tally}
      <span className={styles.word}>{isBacked ? floor.act.backed : floor.act.back}</span>
    </button>
  )
}
