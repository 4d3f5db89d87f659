'use client'

import { type KeyboardEvent, useCallback, useState } from 'react'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { isTyping } from '@/app/board/shortcuts.tsx'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { useRovingRows } from '@/app/components/roving-rows.ts'
import { useMessages } from '@/app/messages/for-decisions.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import { Note } from '@/lib/board/records/note.ts'
import type { KindName } from '@/lib/board/records.ts'
import { ContingencyCard } from './contingency-card.tsx'
import { ContingencyForm } from './contingency-form.tsx'
import { contingencyRights, noteRights } from './decision-rights.ts'
import type { DecisionsDesk } from './decisions-desk.ts'
import styles from './decisions-view.module.css'
import { NoteCard, noteSigns } from './note-card.tsx'
import { useDecisionActs } from './use-decision-acts.ts'

interface DecisionsViewProps {
  /** by rank */
  readonly notes: readonly Note[]
  /** by rank */
  readonly contingencies: readonly Contingency[]
  readonly desk: DecisionsDesk
}

const decisionKinds: readonly KindName[] = ['notes', 'contingencies']

/** What was found, decided and why; then what is to be done if something happens. */
export function DecisionsView({ notes, contingencies, desk }: DecisionsViewProps) {
  const { decisions } = useMessages()
  const rows = useRovingRows([...notes, ...contingencies].map(({ id }) => id))
  const acts = useDecisionActs(desk)
  const { focusRow } = rows
  const goTo = useCallback(({ id }: JumpTarget) => focusRow(id), [focusRow])
  useJumps(decisionKinds, goTo)
  const onKeyDown = (event: KeyboardEvent) => {
    if (isTyping(event.target) || isInForm(event.target)) return
    const note = notes.find(({ id }) => id === rows.current)
    const contingency = contingencies.find(({ id }) => id === rows.current)
    const isTaken =
      rows.onArrow(event) ||
      (note !== undefined && acts.onNoteKey(note, event)) ||
      (contingency !== undefined && acts.onContingencyKey(contingency, event))
    if (isTaken) event.preventDefault()
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
                task={acts.noteTask(note.id)}
                onAct={(act) => acts.actOnNote(note, act)}
                onTaskDone={acts.endTask}
              />
            ))}
          </ul>
        )}
        {desk.may.mayCreate('notes') && (
          <div className={styles.add}>
            {Note.shape.kind.options.map((kind) => (
              <Button key={kind} onClick={() => acts.write(desk.acts.startNote(kind))}>
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
                task={acts.contingencyTask(contingency.id)}
                onAct={(act) => acts.actOnContingency(contingency, act)}
                onTaskDone={acts.endTask}
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
