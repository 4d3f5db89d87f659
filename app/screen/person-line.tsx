'use client'

import { useMessages, usePerson } from '@/app/board/board-context.tsx'
import type { ParticipantId } from '@/lib/board/identity.ts'
import styles from './person-line.module.css'

/** Name, role and affiliation of whoever wrote something. */
export function PersonLine({ participant }: { participant: ParticipantId }) {
  const { board, words } = useMessages()
  const person = usePerson(participant)
  if (person === undefined) return <span className={styles.line}>{board.unknownPerson}</span>
  return (
    <span className={styles.line}>
      <strong className={styles.name}>{person.name}</strong>
      <span>
        {[person.role === null ? '' : words.role[person.role], person.affiliation].filter(Boolean).join(', ')}
      </span>
    </span>
  )
}
