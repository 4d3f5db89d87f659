'use client'

import { useTypists } from '@/app/board/presence.ts'
import { useMessages } from '@/app/messages/for-decisions.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import styles from './typists.module.css'

export const typingPlace = (note: RecordId): string => `notes/${note}`

/** Who else writes in a note now. */
export function Typists({ note }: { readonly note: RecordId }) {
  const { decisions } = useMessages()
  const names = useTypists(typingPlace(note)).map(({ name }) => name)
  return (
    <span className={styles.typists} role="status">
      {names.length > 0 && decisions.note.typing(names)}
    </span>
  )
}
