'use client'

import { Dialog } from '@/app/components/dialog.tsx'
import { Role } from '@/lib/board/roles.ts'
import { useBoardStatus, useMessages } from '../board-context.tsx'
import styles from './people-panel.module.css'

interface PanelProps {
  readonly open: boolean
  readonly onClose: () => void
}

/** Who is here, by role. Observers are a number. */
export function PeoplePanel({ open, onClose }: PanelProps) {
  const { board, words } = useMessages()
  const { roster } = useBoardStatus()
  return (
    <Dialog open={open} onClose={onClose} title={board.whoIsHere}>
      {Role.options.map((role) => {
        const people = roster.people.filter((person) => person.role === role)
        if (people.length === 0) return null
        return (
          <section key={role} className={styles.group}>
            <h3 className={styles.role}>{words.role[role]}</h3>
            <ul>
              {people.map(({ id, name, affiliation }) => (
                <li key={id}>
                  {name} <span className={styles.affiliation}>{affiliation}</span>
                </li>
              ))}
            </ul>
          </section>
        )
      })}
      <p className={styles.affiliation}>{board.observers(roster.observers)}</p>
    </Dialog>
  )
}
