import { useMessages } from '@/app/messages/for-meeting.ts'
import styles from './programme-pages.module.css'

const pages = ['screen', 'theatre', 'handout', 'code'] as const

/** The way to the pages that follow the programme, or gather what its cases hold. */
export function ProgrammePages({ id }: { id: string }) {
  const { meeting } = useMessages()
  return (
    <nav aria-label={meeting.pages}>
      <ul className={styles.pages}>
        {pages.map((page) => (
          <li key={page}>
            <a className={styles.page} href={`/programme/${id}/${page}`} target="_blank" rel="noreferrer">
              {meeting.page[page]}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  )
}
