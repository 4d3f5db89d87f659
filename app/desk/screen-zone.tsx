'use client'

import { type KeyboardEvent, useMemo, useState } from 'react'
import { useBoard, usePerson, useSingle, useTable } from '@/app/board/board-context.tsx'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { Button } from '@/app/components/button.tsx'
import { ChoiceBox } from '@/app/components/choice-box.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { CloseIcon, DownIcon, UpIcon } from '@/app/components/icons.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { type RovingRows, useRovingRows } from '@/app/components/roving-rows.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import { byRank } from '@/lib/board/reading.ts'
import { Showing } from '@/lib/board/records/main-screen.ts'
import type { UpNext } from '@/lib/board/records/up-next.ts'
import type { DeskActs } from './desk-acts.ts'
import { KeyHint } from './key-hint.tsx'
import styles from './screen-zone.module.css'
import { useShowable } from './showable.ts'
import { useLatest } from './use-latest.ts'

/** What is on the main screen now, and the queue of what comes next. */
export function ScreenZone({ acts }: { readonly acts: DeskActs }) {
  const { desk } = useMessages()
  const [choosing, setChoosing] = useState<'now' | 'queue'>()
  const queue = useTable('upNext')
  const sorted = useMemo(() => [...queue].sort(byRank), [queue])
  const rows = useRovingRows(sorted.map(({ id }) => id))
  useScreenKeys(acts, setChoosing, () => rows.current !== undefined && rows.focusRow(rows.current))
  return (
    <Pane title={desk.screen.title}>
      <OnNow acts={acts} onShow={() => setChoosing('now')} />
      <section className={styles.part} aria-label={desk.screen.next}>
        <div className={styles.head}>
          <h3 className={styles.title}>{desk.screen.next}</h3>
          <Button tone="accent" disabled={sorted.length === 0} onClick={() => acts.bring()}>
            {desk.screen.bringNext} <KeyHint>n</KeyHint>
          </Button>
          <Button tone="quiet" onClick={() => setChoosing('queue')}>
            {desk.screen.queue} <KeyHint>I</KeyHint>
          </Button>
        </div>
        {sorted.length === 0 ? (
          <EmptyHint title={desk.screen.emptyTitle}>{desk.screen.empty}</EmptyHint>
        ) : (
          <Queue queue={sorted} rows={rows} acts={acts} />
        )}
      </section>
      <ChooseDialog
        choosing={choosing}
        onChoose={(showing) => {
          if (choosing === 'queue') acts.queue(showing)
          else acts.show(showing)
          setChoosing(undefined)
        }}
        onClose={() => setChoosing(undefined)}
      />
    </Pane>
  )
}

function OnNow({ acts, onShow }: { readonly acts: DeskActs; readonly onShow: () => void }) {
  const { desk, board } = useMessages()
  const { caseId } = useBoard()
  const { title, kindOf } = useShowable()
  const screen = useSingle('mainScreen')
  const person = usePerson(screen?.author ?? '')
  const showing = screen?.showing ?? { kind: 'nothing' as const }
  return (
    <section className={styles.part} aria-label={desk.screen.now}>
      <div className={styles.now} data-shown={showing.kind !== 'nothing'}>
        <p className={styles.kind}>
          <StateSign tone={showing.kind === 'nothing' ? 'quiet' : 'accent'}>{desk.screen.now}</StateSign>
          <span>{kindOf(showing)}</span>
        </p>
        {showing.kind !== 'nothing' && (
          <p className={styles.shown} dir="auto">
            {title(showing)}
          </p>
        )}
        {screen !== undefined && <p className={styles.fine}>{desk.screen.by(person?.name ?? board.unknownPerson)}</p>}
      </div>
      <div className={styles.acts}>
        <Button tone="quiet" onClick={onShow}>
          {desk.screen.show} <KeyHint>i</KeyHint>
        </Button>
        <Button tone="quiet" disabled={showing.kind === 'nothing'} onClick={() => acts.show({ kind: 'nothing' })}>
          {desk.screen.clear} <KeyHint>.</KeyHint>
        </Button>
        <a className={styles.link} href={`/case/${caseId}/screen`} target="_blank" rel="noreferrer">
          {desk.screen.open}
        </a>
      </div>
    </section>
  )
}

interface QueueProps {
  readonly queue: readonly UpNext[]
  readonly rows: RovingRows
  readonly acts: DeskActs
}

function Queue({ queue, rows, acts }: QueueProps) {
  const { desk } = useMessages()
  const { title, kindOf } = useShowable()
  const onKeyDown = (event: KeyboardEvent) => {
    const id = rows.current
    if (id === undefined || event.ctrlKey || event.metaKey) return
    if (rows.onArrow(event)) return event.preventDefault()
    const by = { K: -1, J: 1 }[event.key] ?? (event.altKey ? { ArrowUp: -1, ArrowDown: 1 }[event.key] : undefined)
    if (by === -1 || by === 1) acts.shiftNext(id, by)
    else if (event.key === 'x' || event.key === 'Delete') acts.drop(id)
    else return
    event.preventDefault()
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys of the focused entry inside, as its buttons say
    <div {...rows.area} onKeyDown={onKeyDown}>
      <ol className={styles.queue}>
        {queue.map(({ id, showing }, index) => (
          <li key={id} className={styles.entry} data-row-of={id}>
            <button
              type="button"
              {...rows.rowProps(id)}
              className={styles.bring}
              aria-label={desk.screen.bring(title(showing))}
              onClick={() => acts.bring(id)}
            >
              <span className={styles.fine}>
                {index + 1} · {kindOf(showing)}
              </span>
              <span className={styles.entryTitle} dir="auto">
                {title(showing)}
              </span>
            </button>
            <span className={styles.entryActs}>
              <IconButton label={desk.screen.up} disabled={index === 0} onClick={() => acts.shiftNext(id, -1)}>
                <UpIcon />
              </IconButton>
              <IconButton
                label={desk.screen.down}
                disabled={index === queue.length - 1}
                onClick={() => acts.shiftNext(id, 1)}
              >
                <DownIcon />
              </IconButton>
              <IconButton label={desk.screen.drop} onClick={() => acts.drop(id)}>
                <CloseIcon />
              </IconButton>
            </span>
          </li>
        ))}
      </ol>
    </div>
  )
}

interface ChooseDialogProps {
  readonly choosing: 'now' | 'queue' | undefined
  readonly onChoose: (showing: Showing) => void
  readonly onClose: () => void
}

function ChooseDialog({ choosing, onChoose, onClose }: ChooseDialogProps) {
  const { desk } = useMessages()
  const { choices } = useShowable()
  const { screen } = desk
  return (
    <Dialog
      open={choosing !== undefined}
      onClose={onClose}
      title={choosing === 'queue' ? screen.chooseQueue : screen.chooseNow}
    >
      <ChoiceBox
        focusAtOnce
        label={screen.choose}
        hint={screen.chooseHint}
        choices={choices}
        none={screen.chooseNone}
        onChoose={(id) => onChoose(Showing.parse(JSON.parse(id)))}
      />
    </Dialog>
  )
}

function useScreenKeys(acts: DeskActs, choose: (what: 'now' | 'queue') => void, toQueue: () => void): void {
  const { desk } = useMessages()
  const latest = useLatest({ acts, choose, toQueue })
  const shortcuts = useMemo<Shortcut[]>(() => {
    const { keys } = desk
    return [
      { key: 'n', does: keys.bringNext, act: () => latest.current.acts.bring() },
      { key: 'u', does: keys.toQueue, act: () => latest.current.toQueue() },
      { key: 'i', does: keys.show, act: () => latest.current.choose('now') },
      { key: 'I', does: keys.add, act: () => latest.current.choose('queue') },
      { key: 'm', does: keys.mark, act: () => latest.current.acts.show({ kind: 'sync-mark' }) },
      { key: '.', does: keys.clear, act: () => latest.current.acts.show({ kind: 'nothing' }) },
    ]
  }, [desk, latest])
  useShortcuts(desk.keys.screen, shortcuts)
  const inQueue = useMemo<Shortcut[]>(() => {
    const { keys } = desk
    const ofRow = (key: string, does: string): Shortcut => ({ key, does, when: () => false, act: () => undefined })
    return [
      ofRow('↑ ↓', keys.move),
      ofRow('↵', keys.bring),
      ofRow('K J', `${keys.earlier} / ${keys.later}`),
      ofRow('x', keys.drop),
    ]
  }, [desk])
  useShortcuts(desk.keys.queue, inQueue)
}
