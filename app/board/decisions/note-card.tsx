'use client'

import { lazy, Suspense, useCallback } from 'react'
import { Byline } from '@/app/board/byline.tsx'
import { ActBar, ActButton, OrderButtons } from '@/app/components/act-bar.tsx'
import { Button } from '@/app/components/button.tsx'
import { ChoiceBox } from '@/app/components/choice-box.tsx'
import { Field } from '@/app/components/field.tsx'
import { Moment } from '@/app/components/moment.tsx'
import { RichTextView } from '@/app/components/rich-text-view.tsx'
import type { RowProps } from '@/app/components/roving-rows.ts'
import { RowTitle } from '@/app/components/row-title.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import { identifyingParts } from '@/lib/board/identifying-text.ts'
import { Note } from '@/lib/board/records/note.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import styles from './card.module.css'
import { Citations } from './citations.tsx'
import { type NoteAct, type NoteRights, noteActs, noteKeys } from './decision-rights.ts'
import { type DecisionsDesk, isCitationOf } from './decisions-desk.ts'
import forms from './forms.module.css'
import { ReasonForm } from './reason-form.tsx'
import { StepChoice, StepLine } from './step-choice.tsx'
import { Typists } from './typists.tsx'

const NoteEditor = lazy(() => import('./note-editor.tsx'))

/** A form that stands open in a note. */
export type NoteTask = Exclude<NoteAct, 'screen'>

export interface NoteCardProps {
  readonly note: Note
  readonly desk: DecisionsDesk
  readonly rights: NoteRights
  readonly rowProps: RowProps
  readonly isCurrent: boolean
  readonly task: NoteTask | undefined
  readonly onAct: (act: NoteAct) => void
  readonly onTaskDone: () => void
}

/** The sign of each kind: therefore, because, and an eye for what was found. */
export const noteSigns: Readonly<Record<Note['kind'], string>> = { finding: '◉', decision: '∴', reason: '∵' }

/** One note: its kind by sign and word, its text, what it stands on, and who began it. */
export function NoteCard(props: NoteCardProps) {
  const { note, desk, rights, rowProps, isCurrent, task } = props
  const { decisions } = useMessages()
  const kind = decisions.kind[note.kind]
  const press = rights.order
    ? {
        isOpen: rights.edit ? task === 'edit' : undefined,
        act: () => {
          if (rights.edit) props.onAct('edit')
        },
      }
    : undefined
  const firstLine = plainText(note.body).split('\n')[0]?.trim() || decisions.note.empty
  return (
    <li
      className={styles.card}
      data-row-of={note.id}
      data-kind={note.kind}
      data-current={isCurrent}
      data-struck={note.struck !== undefined}
    >
      <div className={styles.head}>
        <RowTitle row={rowProps} className={styles.title} label={decisions.note.name(kind, firstLine)} press={press}>
          <span aria-hidden="true">{noteSigns[note.kind]}</span> {kind}
        </RowTitle>
        <Byline person={desk.people.get(note.author)} at={note.at} />
        <Typists note={note.id} />
      </div>
      {task === 'edit' && rights.edit ? <Writing {...props} kind={kind} /> : <Words note={note} desk={desk} />}
      <Citations note={note} desk={desk} mayDrop={task === 'edit' && rights.cite} tabIndex={isCurrent ? 0 : -1} />
      <Struck note={note} desk={desk} />
      {isCurrent && <NoteActions {...props} />}
      <NoteTaskForm {...props} />
    </li>
  )
}

function Words({ note, desk }: Pick<NoteCardProps, 'note' | 'desk'>) {
  const { decisions } = useMessages()
  const isEmpty = plainText(note.body).trim() === ''
  return (
    <div className={styles.words}>
      {isEmpty ? <p className={styles.quiet}>{decisions.note.empty}</p> : <RichTextView text={note.body} />}
      <StepLine step={note.step} desk={desk} />
    </div>
  )
}

function Writing({ note, desk, onTaskDone, kind }: NoteCardProps & { readonly kind: string }) {
  const { decisions } = useMessages()
  const { awareness, user, fragmentOf, typing } = desk.writing
  const onTyping = useCallback((isTyping: boolean) => typing(isTyping ? note.id : null), [typing, note.id])
  return (
    <div className={styles.writing}>
      <Suspense fallback={<p role="status">{decisions.editor.loading}</p>}>
        <NoteEditor
          fragment={fragmentOf(note.id)}
          awareness={awareness}
          user={user}
          label={decisions.editor.label(kind)}
          onTyping={onTyping}
          onDone={onTaskDone}
        />
      </Suspense>
      {identifyingParts(plainText(note.body)).length > 0 && (
        <p className={styles.caution} role="status">
          {decisions.note.identifying}
        </p>
      )}
      <div className={styles.foot}>
        <Field label={decisions.editor.kind}>
          {(control) => (
            <select
              {...control}
              value={note.kind}
              onChange={(event) => desk.acts.changeKind(note.id, Note.shape.kind.parse(event.target.value))}
            >
              {Note.shape.kind.options.map((option) => (
                <option key={option} value={option}>
                  {decisions.kind[option]}
                </option>
              ))}
            </select>
          )}
        </Field>
        {desk.may.mayChange('notes', 'step', note) && <StepChoice of={{ ...note, kind: 'notes' }} desk={desk} />}
        <Button tone="accent" onClick={onTaskDone}>
          {decisions.editor.done}
        </Button>
      </div>
    </div>
  )
}

function Struck({ note: { struck }, desk }: Pick<NoteCardProps, 'note' | 'desk'>) {
  const { decisions, board } = useMessages()
  if (struck === undefined) return null
  const name = desk.people.get(struck.by)?.name ?? board.unknownPerson
  return (
    <p className={styles.struck}>
      <span className={styles.fine}>
        {decisions.note.struckBy(name)} · <Moment at={struck.at} />
      </span>{' '}
      <span dir="auto">{struck.reason}</span>
    </p>
  )
}

function NoteActions({ note, desk, rights, task, onAct }: NoteCardProps) {
  const { decisions } = useMessages()
  const acts = noteActs.filter((act) => (act === 'screen' ? desk.acts.screen !== undefined : rights[act]))
  if (acts.length === 0 && !rights.order) return null
  return (
    <ActBar>
      {acts.map((act) => (
        <ActButton
          key={act}
          label={decisions.act[act]}
          shortcut={noteKeys[act]}
          isOpen={act === task}
          onAct={() => onAct(act)}
        />
      ))}
      {rights.order && (
        <OrderButtons
          up={decisions.act.up}
          down={decisions.act.down}
          onShift={(by) => desk.acts.shiftNote(note.id, by)}
        />
      )}
    </ActBar>
  )
}

function NoteTaskForm({ note, desk, task, onTaskDone }: NoteCardProps) {
  const { decisions, shell } = useMessages()
  if (task === 'strike')
    return (
      <ReasonForm
        name={`strike:${note.id}`}
        label={decisions.form.strike}
        hint={decisions.form.strikeHint}
        submit={decisions.form.saveStrike}
        tone="stop"
        onReason={(reason, sent) =>
          desk.beforePosting(reason, () => {
            desk.acts.strike(note.id, reason)
            sent()
          })
        }
        onDone={onTaskDone}
      />
    )
  if (task !== 'cite') return null
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape inside the box leaves it; the box itself is the control
    <div
      className={forms.form}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onTaskDone()
      }}
    >
      <ChoiceBox
        focusAtOnce
        label={decisions.form.cite}
        hint={decisions.form.citeHint}
        none={decisions.form.citeNone}
        choices={citeChoices(note, desk, decisions.note.sort)}
        onChoose={(id) => {
          const chosen = desk.citable.find((citable) => choiceId(citable.citation) === id)
          if (chosen !== undefined) desk.acts.cite(note.id, chosen.citation)
          onTaskDone()
        }}
      />
      <div className={forms.buttons}>
        <Button tone="quiet" onClick={onTaskDone}>
          {shell.cancel}
        </Button>
      </div>
    </div>
  )
}

const choiceId = ({ kind, id }: Note['cites'][number]): string => `${kind} ${id}`

function citeChoices(note: Note, desk: DecisionsDesk, sort: Readonly<Record<Note['cites'][number]['kind'], string>>) {
  return desk.citable
    .filter((citable) => !note.cites.some((cited) => isCitationOf(cited)(citable)))
    .map(({ citation, label }) => ({ id: choiceId(citation), sort: sort[citation.kind], label }))
}
