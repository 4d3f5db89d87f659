'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { Note } from '@/lib/board/records/note.ts'
import { FittedText } from './fitted-text.tsx'
import styles from './note-view.module.css'
import { PersonLine } from './person-line.tsx'
import { RichTextView } from './rich-text-view.tsx'
import { ScreenCard } from './screen-card.tsx'
import { useWords } from './use-words.ts'

/** A finding, a decision or a reason; a struck one stays legible under its warning. */
export function NoteView({ note }: { note: Note }) {
  const { screen } = useMessages().screens
  const { day, clock } = useWords()
  return (
    <ScreenCard
      kind={screen.noteKind[note.kind]}
      aside={<time dateTime={note.at}>{`${day(note.at)}, ${clock(note.at)}`}</time>}
      foot={<PersonLine participant={note.author} />}
    >
      <div className={styles.body}>
        {note.struck !== undefined && (
          <p className={styles.struck}>
            <span aria-hidden="true">✕ </span>
            {screen.struck(day(note.struck.at), note.struck.reason)}
          </p>
        )}
        <div className={styles.words} data-struck={note.struck !== undefined}>
          <FittedText largest="display" continues={screen.continues}>
            <RichTextView text={note.body} />
          </FittedText>
        </div>
      </div>
    </ScreenCard>
  )
}
