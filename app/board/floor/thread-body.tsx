import { Byline } from '@/app/board/byline.tsx'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { FloorDesk } from './floor-desk.ts'
import styles from './thread-body.module.css'

interface ThreadBodyProps {
  readonly thread: Thread
  readonly desk: FloorDesk
  readonly mayUnfold: boolean
}

/** What stands inside an open question: those folded into it, who backs it, and the replies. */
export function ThreadBody({ thread: { folded, backers, replies }, desk, mayUnfold }: ThreadBodyProps) {
  const { floor, board } = useMessages()
  const nameOf = (id: string) => desk.people.get(id)?.name ?? board.unknownPerson
  return (
    <div className={styles.body}>
      {folded.length > 0 && (
        <section className={styles.part}>
          <h4 className={styles.title}>{floor.thread.foldedTitle}</h4>
          <ul className={styles.list}>
            {folded.map((question) => (
              <li key={question.id} className={styles.entry}>
                <p dir="auto">{question.text}</p>
                <Byline person={desk.people.get(question.author)} at={question.at} />
                {mayUnfold && (
                  <Button tone="quiet" onClick={() => desk.acts.unfold(question.id)}>
                    {floor.act.unfold}
                  </Button>
                )}
              </li>
            ))}
          </ul>
        </section>
      )}
      {backers.length > 0 && <p className={styles.fine}>{floor.thread.backedBy(backers.map(nameOf).join(', '))}</p>}
      {replies.length === 0 ? (
        <p className={styles.fine}>{floor.thread.noReplies}</p>
      ) : (
        <ul className={styles.list}>
          {replies.map((reply) => (
            <li key={reply.id} className={styles.entry}>
              <p dir="auto">{reply.text}</p>
              <Byline person={desk.people.get(reply.author)} at={reply.at} />
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
