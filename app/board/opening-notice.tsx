import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './opening-notice.module.css'

/** What stands where the board will be: that it is opening, or why it does not. */
export function OpeningNotice({ reason }: { reason: string | undefined }) {
  const { board } = useMessages()
  return (
    <main className={styles.notice}>
      {reason === undefined ? (
        <p role="status">{board.opening}</p>
      ) : (
        <>
          <h1 className={styles.title}>{board.cannotOpen}</h1>
          <p role="alert">{reason}</p>
          <p>
            <a href="/">{board.toOverview}</a>
          </p>
        </>
      )}
    </main>
  )
}
