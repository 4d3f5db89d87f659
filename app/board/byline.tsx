import { Moment } from '@/app/components/moment.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Person } from './board-context.tsx'
import styles from './byline.module.css'

interface BylineProps {
  readonly person: Person | undefined
  readonly at: string
}

/** Who wrote something and when: name, affiliation, role, time. */
export function Byline({ person, at }: BylineProps) {
  const { board, words } = useMessages()
  const facts =
    person === undefined
      ? []
      : [person.affiliation, person.role === null ? '' : words.role[person.role]].filter(Boolean)
  return (
    <span className={styles.byline}>
      <b className={styles.name} dir="auto">
        {person?.name ?? board.unknownPerson}
      </b>
      {facts.map((fact) => (
        <span key={fact}>{fact}</span>
      ))}
      <Moment at={at} />
    </span>
  )
}
