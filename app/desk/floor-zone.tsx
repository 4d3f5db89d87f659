'use client'

import { type FocusEvent, type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react'
import { useBoard, useThreads } from '@/app/board/board-context.tsx'
import type { FloorDesk } from '@/app/board/floor/floor-desk.ts'
import { QuestionRow } from '@/app/board/floor/question-row.tsx'
import { withWords } from '@/app/board/floor/queue.ts'
import { useFloorDesk } from '@/app/board/floor/use-floor-desk.ts'
import { useQuestionActs } from '@/app/board/floor/use-question-acts.ts'
import { isTyping } from '@/app/board/shortcuts.tsx'
import { ActButton } from '@/app/components/act-bar.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { Field } from '@/app/components/field.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { Pane } from '@/app/components/pane.tsx'
import { useRovingRows } from '@/app/components/roving-rows.ts'
import { useMessages } from '@/app/messages/for-desk.ts'
import { type Alike, alikeQuestions, pairKey } from '@/lib/board/alike-questions.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { useClaim, useClaims } from './claims.ts'
import type { DeskActs } from './desk-acts.ts'
import { FloorFilters } from './floor-filters.tsx'
import { hasTheme, inOrder, isIn, themesOf, type View } from './floor-views.ts'
import styles from './floor-zone.module.css'
import { QuestionFacts, Suggestion } from './question-additions.tsx'
import { ThemeForm } from './theme-form.tsx'
import { useFloorKeys } from './use-floor-keys.ts'

/** What is drawn at once; more is found by words and themes. */
const mostDrawn = 60
/** From how many questions on a box to find words in them is worth its place. */
const findFrom = 5

/** The floor by state and theme; every key acts on the question that has the focus, or had it last. */
export function FloorZone({ acts }: { readonly acts: DeskActs }) {
  const { desk } = useMessages()
  const { caseId } = useBoard()
  return (
    <Pane title={desk.floor.title}>
      <KeptTextScope value={caseId}>
        <Floor desk={useFloorDesk(acts)} acts={acts} />
      </KeptTextScope>
    </Pane>
  )
}

function Floor({ desk, acts }: { readonly desk: FloorDesk; readonly acts: DeskActs }) {
  const messages = useMessages()
  const threads = useThreads()
  const [view, setView] = useState<View>('open')
  const [theme, setTheme] = useState<string>()
  const [words, setWords] = useState('')
  const [open, setOpen] = useState<RecordId>()
  const [apart, setApart] = useState<ReadonlySet<string>>(new Set())
  const [themed, setThemed] = useState<RecordId>()
  const [isInside, setInside] = useState(false)
  const find = useRef<HTMLInputElement>(null)
  const themes = useMemo(() => themesOf(threads), [threads])
  const shown = useMemo(
    () => inOrder(withWords(threads, words).filter((thread) => isIn(thread, view) && hasTheme(thread, theme))),
    [threads, words, view, theme],
  )
  const drawn = shown.slice(0, mostDrawn)
  const rows = useRovingRows(drawn.map(({ question }) => question.id))
  const area = rows.area.ref
  const current = drawn.find(({ question }) => question.id === rows.current)
  const questionActs = useQuestionActs(threads, desk, setOpen)
  const alike = useMemo(() => alikeQuestions(threads, apart), [threads, apart])
  const claims = useClaims()
  useClaim(isInside ? rows.current : undefined)

  const taskOpen = current !== undefined && questionActs.taskOf(current.question.id) !== undefined
  useEffect(() => {
    if (taskOpen || themed !== undefined) area.current?.querySelector('form')?.scrollIntoView({ block: 'nearest' })
  }, [taskOpen, themed, area])

  const pairOf = (thread: Thread | undefined): Alike | undefined =>
    alike.find((pair) => pair.thread === thread) ?? alike.find((pair) => pair.into === thread)
  const join = ({ thread, into }: Alike) => {
    acts.fold(thread.question.id, into.question.id)
    rows.focusRow(into.question.id)
  }
  const keepApart = ({ thread, into }: Alike) =>
    setApart((before) => new Set(before).add(pairKey(thread.question.id, into.question.id)))
  const go = (by: -1 | 1) => {
    const at = drawn.findIndex(({ question }) => question.id === rows.current)
    // The first press of a key shows where one is.
    const next = isInside ? drawn[Math.max(0, Math.min(drawn.length - 1, at + by))] : drawn[Math.max(0, at)]
    if (next !== undefined) rows.focusRow(next.question.id)
  }
  useFloorKeys({
    current,
    questionActs,
    go,
    queue: () => current !== undefined && acts.queue({ kind: 'question', id: current.question.id }),
    join: () => {
      const pair = pairOf(current)
      if (pair !== undefined) join(pair)
    },
    keepApart: () => {
      const pair = pairOf(current)
      if (pair !== undefined) keepApart(pair)
    },
    theme: () => setThemed(current?.question.id),
    nextTheme: () => setTheme(themes[themes.indexOf(theme ?? '') + 1]),
    find: () => find.current?.focus(),
    view: setView,
  })
  const onKeyDown = (event: KeyboardEvent) => {
    if (isTyping(event.target) || isInForm(event.target) || current === undefined) return
    if (rows.onArrow(event) || (event.altKey && questionActs.onKey(current, event))) event.preventDefault()
  }
  const { desk: labels } = messages
  return (
    <>
      <FloorFilters
        {...{ threads, view, setView, theme, setTheme, themes }}
        suggested={alike.length}
        find={
          threads.length >= findFrom && (
            <Field label={labels.floor.find}>
              {(control) => (
                <input
                  {...control}
                  ref={find}
                  type="search"
                  value={words}
                  onChange={(event) => setWords(event.target.value)}
                  onKeyDown={(event) => {
                    if (event.key !== 'Enter' && event.key !== 'Escape') return
                    if (event.key === 'Escape') setWords('')
                    event.preventDefault()
                    if (rows.current !== undefined) rows.focusRow(rows.current)
                  }}
                />
              )}
            </Field>
          )
        }
      />
      {drawn.length === 0 && <EmptyHint title={labels.floor.nothing}>{labels.floor.nothingHint}</EmptyHint>}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys of the focused question inside, as its buttons say */}
      <div
        className={styles.rows}
        {...rows.area}
        onFocus={(event) => {
          setInside(true)
          rows.area.onFocus(event)
        }}
        onBlur={(event: FocusEvent) => {
          setInside(event.currentTarget.contains(event.relatedTarget))
          rows.area.onBlur(event)
        }}
        onKeyDown={onKeyDown}
      >
        <ol className={styles.list}>
          {drawn.map((thread) => {
            const { id } = thread.question
            const others = claims.filter(({ question }) => question === id).map(({ user }) => user.name)
            const pair = pairOf(thread)
            return (
              <QuestionRow
                key={id}
                thread={thread}
                threads={threads}
                desk={desk}
                rights={questionActs.rightsTo(thread)}
                rowProps={rows.rowProps(id)}
                isCurrent={thread === current}
                isOpen={open === id}
                task={questionActs.taskOf(id)}
                onToggle={() => setOpen(open === id ? undefined : id)}
                onAct={(what) => questionActs.act(thread, what)}
                onTaskDone={() => {
                  questionActs.endTask()
                  rows.focusRow(id)
                }}
                onShift={(by) => questionActs.shift(thread, by)}
                moreActs={
                  <>
                    <ActButton
                      label={labels.floor.queueIt}
                      shortcut="q"
                      onAct={() => acts.queue({ kind: 'question', id })}
                    />
                    <ActButton
                      label={labels.floor.themeIt}
                      shortcut="t"
                      isOpen={themed === id}
                      onAct={() => setThemed(id)}
                    />
                  </>
                }
                beside={
                  <>
                    <QuestionFacts claimed={others} themes={thread.question.themes} />
                    {pair !== undefined && (
                      <Suggestion pair={pair} of={thread} onJoin={() => join(pair)} onApart={() => keepApart(pair)} />
                    )}
                    {themed === id && (
                      <ThemeForm
                        thread={thread}
                        known={themes}
                        onTheme={(name) => acts.theme(id, name)}
                        onDone={() => {
                          setThemed(undefined)
                          rows.focusRow(id)
                        }}
                      />
                    )}
                  </>
                }
              />
            )
          })}
        </ol>
        {shown.length > drawn.length && <p className={styles.left}>{labels.floor.more(shown.length - drawn.length)}</p>}
      </div>
    </>
  )
}

const isInForm = (target: EventTarget): boolean => target instanceof Element && target.closest('form') !== null
