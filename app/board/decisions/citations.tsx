'use client'

import { IconButton } from '@/app/components/icon-button.tsx'
import { CloseIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import type { Citation, Note } from '@/lib/board/records/note.ts'
import styles from './citations.module.css'
import { type DecisionsDesk, isCitationOf } from './decisions-desk.ts'

interface CitationsProps {
  readonly note: Note
  readonly desk: DecisionsDesk
  /** whether citations can be taken away here */
  readonly mayDrop: boolean
  readonly tabIndex: 0 | -1
}

const signs: Readonly<Record<Citation['kind'], string>> = { question: '?', annotation: '▾', test: '○' }

/** What the note stands on, each a way there. */
export function Citations({ note, desk, mayDrop, tabIndex }: CitationsProps) {
  const { decisions } = useMessages()
  if (note.cites.length === 0) return null
  return (
    <ul className={styles.list} aria-label={decisions.note.cites}>
      {note.cites.map((citation) => {
        const label = desk.citable.find(isCitationOf(citation))?.label
        const name = label ?? decisions.note.citeGone
        return (
          <li key={`${citation.kind} ${citation.id}`} className={styles.citation}>
            <button
              type="button"
              className={styles.chip}
              tabIndex={tabIndex}
              disabled={label === undefined}
              title={decisions.note.goTo(name)}
              onClick={() => desk.goTo(citation)}
            >
              <span aria-hidden="true">{signs[citation.kind]}</span>{' '}
              <span className={styles.label} dir="auto">
                {name}
              </span>
            </button>
            {mayDrop && (
              <IconButton
                label={decisions.note.dropCite(name)}
                tabIndex={tabIndex}
                onClick={() => desk.acts.dropCitation(note.id, citation)}
              >
                <CloseIcon />
              </IconButton>
            )}
          </li>
        )
      })}
    </ul>
  )
}
