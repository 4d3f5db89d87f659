'use client'

import { type KeyboardEvent, useCallback, useState } from 'react'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { isTyping } from '@/app/board/shortcuts.tsx'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { useRovingRows } from '@/app/components/roving-rows.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import { Note } from '@/lib/board/records/note.ts'
import type { KindName } from '@/lib/board/records.ts'
import { ContingencyCard, type ContingencyTask } from './contingency-card.tsx'
import { ContingencyForm } from './contingency-form.tsx'
import { contingencyKeys, contingencyRights, moveKeys, noteActs, noteKeys, noteRights } from './decision-rights.ts'
import type { DecisionsDesk } from './decisions-desk.ts'
import styles from './decisions-view.module.css'
import { NoteCard, type NoteTask, noteSigns } from './note-card.tsx'

interface DecisionsViewProps {
  /** by rank */
  readonly notes: readonly Note[]
  /** by rank */
  readonly contingencies: readonly Contingency[]
  readonly desk: DecisionsDesk
}

type Task = { readonly id: RecordId } & (
  | { readonly of: 'note'; readonly task: NoteTask }
  | { readonly of: 'contingency'; readonly task: ContingencyTask }
)

const decisionKinds: readonly KindName[] = ['notes', 'contingencies']

/** What was found, decided and why; then what is to be done if something happens. */
export function DecisionsView({ notes, contingencies, desk }: DecisionsViewProps) {
  const { decisions } = useMessages()
  const [task, setTask] = useState<Task>()
  const rows = useRovingRows([...notes, ...contingencies].map(({ id }) => id))
  const { focusRow } = rows
  const goTo = useCallback(({ id }: JumpTarget) => focusRow(id), [focusRow])
  useJumps(decisionKinds, goTo)
  const done = () => setTask(undefined)

  const actOnNote = (note: Note, act: NoteTask | 'screen') => {
    if (act === 'screen') desk.acts.screen?.('note', note.id)
    else setTask(task?.id === note.id && task.task === act ? undefined : { of: 'note', id: note.id, task: act })
  }
  const actOnContingency = ({ id }: Contingency, act: ContingencyTask | 'screen') => {
    if (act === 'screen') desk.acts.screen?.('contingency', id)
    else setTask(task?.id === id && task.task === act ? undefined : { of: 'contingency', id, task: act })
  }

  const onKeyDown = (event: KeyboardEvent) => {
    if (isTyping(event.target) || isInForm(event.target)) return
    if (rows.onArrow(event) || shiftOnKey(event) || actOnKey(event)) event.preventDefault()
  }
  const currentNote = notes.find(({ id }) => id === rows.current)
  const currentContingency = contingencies.find(({ id }) => id === rows.current)
  const shiftOnKey = ({ key, altKey }: KeyboardEvent): boolean => {
    if (!altKey || (key !== 'ArrowUp' && key !== 'ArrowDown')) return false
    const by = key === 'ArrowUp' ? -1 : 1
    if (currentNote !== undefined && noteRights(currentNote, desk.may).order) desk.acts.shiftNote(currentNote.id, by)
    else if (currentContingency !== undefined && contingencyRights(currentContingency, desk.may).order)
      desk.acts.shiftContingency(currentContingency.id, by)
    else return false
    return true
  }
  const actOnKey = ({ key, altKey, ctrlKey, metaKey }: KeyboardEvent): boolean => {
    if (altKey || ctrlKey || metaKey) return false
    if (currentNote !== undefined) return actOnNoteKey(currentNote, key)
    return currentContingency !== undefined && actOnContingencyKey(currentContingency, key)
  }
  const hasScreen = desk.acts.screen !== undefined
  const actOnNoteKey = (note: Note, key: string): boolean => {
    const rights = noteRights(note, desk.may)
    const act = noteActs.find((name) => noteKeys[name] === key && (name === 'screen' ? hasScreen : rights[name]))
    if (act !== undefined) actOnNote(note, act)
    return act !== undefined
  }
  const actOnContingencyKey = (contingency: Contingency, key: string): boolean => {
    const rights = contingencyRights(contingency, desk.may)
    const move = rights.moves.find((state) => moveKeys[state] === key)
    if (move !== undefined) actOnContingency(contingency, move)
    else if (key === contingencyKeys.reword && rights.reword) actOnContingency(contingency, 'reword')
    else if (key === contingencyKeys.screen && hasScreen) actOnContingency(contingency, 'screen')
    else return false
    return true
  }

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys of the focused row inside, as its buttons say
    <div className={styles.decisions} {...rows.area} onKeyDown={onKeyDown}>
      <section className={styles.section}>
        <h3 className={styles.title}>{decisions.notes}</h3>
        {notes.length === 0 && <EmptyHint title={decisions.note.nothingTitle}>{decisions.note.nothing}</EmptyHint>}
        {notes.length > 0 && (
          <ul className={styles.list}>
            {notes.map((note) => (
              <NoteCard
                key={note.id}
                note={note}
                desk={desk}
                rights={noteRights(note, desk.may)}
                rowProps={rows.rowProps(note.id)}
                isCurrent={note.id === rows.current}
                task={task?.of === 'note' && task.id === note.id ? task.task : undefined}
                onAct={(act) => actOnNote(note, act)}
                onTaskDone={done}
              />
            ))}
          </ul>
        )}
        {desk.may.mayCreate('notes') && (
          <div className={styles.add}>
            {Note.shape.kind.options.map((kind) => (
              <Button key={kind} onClick={() => setTask({ of: 'note', id: desk.acts.startNote(kind), task: 'edit' })}>
                <span aria-hidden="true">{noteSigns[kind]}</span> {decisions.note.add(decisions.kind[kind])}
              </Button>
            ))}
          </div>
        )}
      </section>
      <section className={styles.section}>
        <h3 className={styles.title}>{decisions.contingencies}</h3>
        {contingencies.length === 0 && (
          <EmptyHint title={decisions.contingency.nothingTitle}>{decisions.contingency.nothing}</EmptyHint>
        )}
        {contingencies.length > 0 && (
          <ul className={styles.list}>
            {contingencies.map((contingency) => (
              <ContingencyCard
                key={contingency.id}
                contingency={contingency}
                desk={desk}
                rights={contingencyRights(contingency, desk.may)}
                rowProps={rows.rowProps(contingency.id)}
                isCurrent={contingency.id === rows.current}
                task={task?.of === 'contingency' && task.id === contingency.id ? task.task : undefined}
                onAct={(act) => actOnContingency(contingency, act)}
                onTaskDone={done}
              />
            ))}
          </ul>
        )}
        {desk.may.mayCreate('contingencies') && <NewContingency desk={desk} />}
      </section>
    </div>
  )
}

function NewContingency({ desk }: Pick<DecisionsViewProps, 'desk'>) {
  const { decisions } = useMessages()
  const [isOpen, setOpen] = useState(false)
  if (!isOpen)
    return (
      <div className={styles.add}>
        <Button onClick={() => setOpen(true)}>
          <span aria-hidden="true">◎</span> {decisions.contingency.add}
        </Button>
      </div>
    )
  return <ContingencyForm desk={desk} onSave={desk.acts.addContingency} onDone={() => setOpen(false)} />
}

const isInForm = (target: EventTarget): boolean => target instanceof Element && target.closest('form') !== null
