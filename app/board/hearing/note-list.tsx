import type { Person } from '@/app/board/board-context.tsx'
import { Byline } from '@/app/board/byline.tsx'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Annotation, ChartPlace } from '@/lib/board/records/annotation.ts'
import styles from './note-list.module.css'

/** A pin or bracket with its number on the chart and what this person may do with it. */
export interface ListedNote {
  readonly annotation: Annotation
  readonly number: number
  readonly author: Person | undefined
  readonly mayChange: boolean
  readonly mayRemove: boolean
}

interface NoteListProps {
  readonly notes: readonly ListedNote[]
  readonly selected: RecordId | undefined
  readonly onSelect: (id: RecordId | undefined) => void
  /** absent for those who may not add one */
  readonly onAdd: (() => void) | undefined
  readonly onEdit: (annotation: Annotation) => void
  readonly onRemove: (annotation: Annotation) => void
}

/** What the chart shows as numbered flags and brackets, in words. */
export function NoteList({ notes, selected, onSelect, onAdd, onEdit, onRemove }: NoteListProps) {
  const { hearing } = useMessages()
  return (
    <section className={styles.notes} aria-label={hearing.notes.heading}>
      <h3 className={styles.heading}>{hearing.notes.heading}</h3>
      {notes.length === 0 && <p className={styles.none}>{hearing.notes.none}</p>}
      <ol className={styles.list}>
        {notes.map(({ annotation, number, author, mayChange, mayRemove }) => (
          <li key={annotation.id} className={styles.note} data-note-item={annotation.id}>
            <button
              type="button"
              className={styles.show}
              aria-pressed={annotation.id === selected}
              onClick={() => onSelect(annotation.id === selected ? undefined : annotation.id)}
            >
              <span className={styles.number}>{number}</span>
              <span className={styles.words}>
                <span className={styles.place}>{placeInWords(annotation.place, hearing.notes.place)}</span>
                <span className={styles.text} dir="auto">
                  {annotation.text}
                </span>
              </span>
            </button>
            <Byline person={author} at={annotation.at} />
            <div className={styles.acts}>
              {mayChange && (
                <Button tone="quiet" onClick={() => onEdit(annotation)}>
                  {hearing.notes.edit}
                </Button>
              )}
              {mayRemove && (
                <Button tone="quiet" onClick={() => onRemove(annotation)}>
                  {hearing.notes.remove}
                </Button>
              )}
            </div>
          </li>
        ))}
      </ol>
      {onAdd !== undefined && <Button onClick={onAdd}>{hearing.notes.add}</Button>}
    </section>
  )
}

type PlaceWords = ReturnType<typeof useMessages>['hearing']['notes']['place']

function placeInWords(place: ChartPlace, words: PlaceWords): string {
  return place.kind === 'pin'
    ? words.pin(place.ear, place.frequency, place.level)
    : words.band(place.ear, place.from, place.to)
}
