'use client'

import { type FormEvent, useMemo, useRef, useState } from 'react'
import { useTable } from '@/app/board/board-context.tsx'
import { Thumbnail } from '@/app/board/pictures/thumbnails.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { elapsed } from '@/app/board/rewind/clock-words.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { Field } from '@/app/components/field.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { Moment } from '@/app/components/moment.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { type Messages, useMessages } from '@/app/messages/for-desk.ts'
import { textLimits } from '@/lib/board/identity.ts'
import { type RecordLine, runningRecord } from '@/lib/board/running-record.ts'
import type { DeskActs } from './desk-acts.ts'
import { PictureActs } from './picture-acts.tsx'
import styles from './record-zone.module.css'

type LineKind = 'finding' | 'decision'

/** What happened, the newest first, and one line to write down what is happening. */
export function RecordZone({ acts }: { readonly acts: DeskActs }) {
  const { desk } = useMessages()
  const steps = useTable('steps')
  const stepExceptions = useTable('stepExceptions')
  const notes = useTable('notes')
  const questions = useTable('questions')
  const contingencies = useTable('contingencies')
  const pictures = useTable('pictures')
  const lines = useMemo(
    () => runningRecord({ steps, stepExceptions, notes, questions, contingencies, pictures }),
    [steps, stepExceptions, notes, questions, contingencies, pictures],
  )
  return (
    <Pane title={desk.record.title}>
      <LineForm acts={acts} />
      <PictureActs acts={acts} />
      {lines.length === 0 ? (
        <EmptyHint title={desk.record.nothingTitle}>{desk.record.nothing}</EmptyHint>
      ) : (
        <ol className={styles.lines}>
          {lines.map((line) => (
            <Line key={line.key} line={line} />
          ))}
        </ol>
      )}
    </Pane>
  )
}

function LineForm({ acts }: { readonly acts: DeskActs }) {
  const { desk } = useMessages()
  const words = useKeptText('line')
  const [kind, setKind] = useState<LineKind>('finding')
  const [missing, setMissing] = useState(false)
  const field = useRef<HTMLTextAreaElement>(null)
  const beforePosting = usePostGuard()
  useLineKeys((next) => {
    setKind(next)
    field.current?.focus()
  })
  const write = (event: FormEvent) => {
    event.preventDefault()
    const text = words.text.trim()
    setMissing(text === '')
    if (text === '' || text.length > textLimits.short) return field.current?.focus()
    beforePosting(text, () => {
      acts.write(kind, text)
      words.clear()
      // Back to the keys of the desk.
      field.current?.blur()
    })
  }
  return (
    <form className={styles.form} onSubmit={write} noValidate>
      <Field label={desk.record.kind}>
        {(control) => (
          <select
            {...control}
            value={kind}
            onChange={(event) => setKind(event.target.value === 'decision' ? 'decision' : 'finding')}
          >
            <option value="finding">{desk.record.kinds.finding}</option>
            <option value="decision">{desk.record.kinds.decision}</option>
          </select>
        )}
      </Field>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: Escape leaves the field inside; what was typed is kept */}
      <div className={styles.line} onKeyDown={(event) => event.key === 'Escape' && field.current?.blur()}>
        <LimitedText
          ref={field}
          label={desk.record.line}
          limit={textLimits.short}
          sendKey="Enter"
          value={words.text}
          onChange={words.write}
          error={missing && words.text.trim() === '' ? desk.record.empty : undefined}
        />
      </div>
      <Button type="submit" tone="accent">
        {desk.record.write}
      </Button>
    </form>
  )
}

function useLineKeys(start: (kind: LineKind) => void): void {
  const { desk } = useMessages()
  const latest = useRef(start)
  latest.current = start
  const shortcuts = useMemo<Shortcut[]>(
    () => [
      { key: 'l', does: desk.keys.finding, act: () => latest.current('finding') },
      { key: 'L', does: desk.keys.decision, act: () => latest.current('decision') },
    ],
    [desk],
  )
  useShortcuts(desk.record.title, shortcuts)
}

function Line({ line }: { readonly line: RecordLine }) {
  const messages = useMessages()
  const { desk } = messages
  const { title, text, fine } = wordsOf(line, messages)
  return (
    <li className={styles.entry} data-kind={line.kind}>
      <span className={styles.when}>
        <span title={line.elapsedMs === undefined ? desk.record.noOperation : undefined}>
          {line.elapsedMs === undefined
            ? '–'
            : `${line.elapsedMs < 0 ? desk.record.minus : ''}${elapsed(line.elapsedMs)}`}
        </span>
        <Moment at={line.at} />
      </span>
      <span className={styles.what}>
        <b className={styles.title}>{title}</b>
        <span className={styles.text} dir="auto" data-struck={line.kind === 'note' && line.isStruck}>
          {text}
        </span>
        {line.kind === 'picture' && <Thumbnail picture={line.picture} />}
        {fine !== '' && (
          <span className={styles.fine} dir="auto">
            {fine}
          </span>
        )}
      </span>
    </li>
  )
}

function wordsOf(line: RecordLine, { desk: { record } }: Messages): { title: string; text: string; fine: string } {
  switch (line.kind) {
    case 'step':
      return { title: record.step[line.what], text: line.title, fine: '' }
    case 'jump':
      return { title: record.jump, text: record.jumped(line.title, line.need), fine: line.reason }
    case 'note':
      return { title: record.note[line.what], text: line.text, fine: line.isStruck ? record.struck : '' }
    case 'answer': {
      const said = line.saidBy === undefined ? [] : [record.said(line.saidBy)]
      return { title: record.answer, text: line.text, fine: [line.question, ...said].join(' · ') }
    }
    case 'picture':
      return { title: record.picture, text: line.picture.caption, fine: '' }
    case 'contingency':
      return { title: record.contingency[line.what], text: line.text, fine: '' }
    default:
      return line satisfies never
  }
}
