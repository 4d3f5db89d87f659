'use client'

import { type KeyboardEvent, useCallback, useMemo, useRef, useState } from 'react'
import { useMay, useTable } from '@/app/board/board-context.tsx'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { PictureDeskProvider } from '@/app/board/pictures/picture-desk.tsx'
import { LoosePictures, StepPictures } from '@/app/board/pictures/thumbnails.tsx'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { useMessages } from '@/app/messages/for-steps.ts'
import { operationTime } from '@/lib/board/operation-time.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import { type Asking, StepDialog } from './step-dialog.tsx'
import { factsOfSteps } from './step-facts.ts'
import { StepItem } from './step-item.tsx'
import { minutesOf } from './step-moves.ts'
import styles from './steps-pane.module.css'
import { useNow } from './use-now.ts'
import { useStepRights } from './use-step-rights.ts'

const showing: Showing = { kind: 'steps' }
const tickMs = 10_000
const jumpKinds = ['steps'] as const

/** Steps of the operation in order, with what is under way and how long; keys work on a focused step. */
export default function StepsPane() {
  const { steps: labels } = useMessages()
  const table = useTable('steps')
  const steps = useMemo(() => table.toSorted(byRank), [table])
  const [asking, setAsking] = useState<Asking>()
  const may = useMay()
  const onScreenKey = usePutOnScreenKey(showing)
  const mayAdd = may.mayCreate('steps')
  return (
    <PictureDeskProvider>
      <Pane title={labels.paneTitle} actions={<PutStepsOnScreen />}>
        <div className={styles.parts} {...onScreenKey}>
          {steps.length > 0 && <Progress steps={steps} />}
          {steps.length === 0 ? (
            <EmptyHint title={labels.none}>{mayAdd ? labels.noneHintEdit : labels.noneHintRead}</EmptyHint>
          ) : (
            <StepList steps={steps} onAsk={setAsking} />
          )}
          {mayAdd && <AddBar onAsk={setAsking} />}
          <LoosePictures />
          {mayAdd && steps.length > 0 && <Keys />}
        </div>
        <StepDialog asking={asking} steps={steps} onClose={() => setAsking(undefined)} />
      </Pane>
    </PictureDeskProvider>
  )
}

/** How many steps are done, and how long the operation goes or went. */
function Progress({ steps }: { steps: readonly OperativeStep[] }) {
  const { steps: labels } = useMessages()
  const now = useNow(tickMs)
  const done = steps.filter(({ state }) => state === 'done').length
  const time = operationTime(steps)
  const minutes = time && minutesOf({ startedAt: time.from, endedAt: time.to }, now)
  return (
    <p className={styles.progress}>
      {labels.progress(done, steps.length)}
      {minutes !== undefined && ` · ${labels.inTotal(labels.minutes(minutes))}`}
    </p>
  )
}

function StepList({ steps, onAsk }: { steps: readonly OperativeStep[]; onAsk: (asking: Asking) => void }) {
  const now = useNow(tickMs)
  const [open, setOpen] = useState<string>()
  const list = useRef<HTMLOListElement>(null)
  const rightsOn = useStepRights(steps, onAsk)
  const factsOf = useStepFacts(steps)
  const goTo = useCallback(({ id }: JumpTarget) => {
    setOpen(id)
    list.current?.querySelector<HTMLElement>(`[data-step="${CSS.escape(id)}"]`)?.focus()
  }, [])
  useJumps(jumpKinds, goTo)
  const next = steps.find(({ state }) => state === 'ahead')?.id
  return (
    <ol className={styles.list} ref={list} onKeyDown={(event) => focusNeighbour(event, list.current)}>
      {steps.map((step, index) => (
        <StepItem
          key={step.id}
          step={step}
          facts={factsOf(step)}
          number={index + 1}
          isNext={step.id === next}
          now={now}
          open={open === step.id}
          onToggle={() => setOpen(open === step.id ? undefined : step.id)}
          rights={rightsOn(step)}
        >
          <StepPictures step={step.id} isOpen={open === step.id || step.state === 'under-way'} />
        </StepItem>
      ))}
    </ol>
  )
}

function useStepFacts(steps: readonly OperativeStep[]) {
  const exceptions = useTable('stepExceptions')
  const notes = useTable('notes')
  const contingencies = useTable('contingencies')
  const questions = useTable('questions')
  return useMemo(
    () => factsOfSteps({ steps, exceptions, notes, contingencies, questions }),
    [steps, exceptions, notes, contingencies, questions],
  )
}

/** Up and down go from title to title. */
function focusNeighbour(event: KeyboardEvent, list: HTMLElement | null): void {
  if (event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') || list === null) return
  const titles = [...list.querySelectorAll<HTMLElement>('[data-step]')]
  const from = event.target instanceof HTMLElement ? titles.indexOf(event.target) : -1
  const next = titles[from + (event.key === 'ArrowUp' ? -1 : 1)]
  if (from < 0 || next === undefined) return
  event.preventDefault()
  next.focus()
}

function AddBar({ onAsk }: { onAsk: (asking: Asking) => void }) {
  const { steps } = useMessages()
  return (
    <div className={styles.bar}>
      <Button onClick={() => onAsk({ what: 'add' })}>{steps.add}</Button>
      <Button tone="quiet" onClick={() => onAsk({ what: 'usual' })}>
        {steps.usual}
      </Button>
    </div>
  )
}

function Keys() {
  const { steps } = useMessages()
  return (
    <details className={styles.keys}>
      <summary>{steps.keysTitle}</summary>
      <dl className={styles.keyList}>
        {steps.keys.map(({ key, does }) => (
          <div key={key} className={styles.key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </details>
  )
}

function PutStepsOnScreen() {
  const { steps } = useMessages()
  const put = usePutOnScreen()
  if (put === undefined) return null
  return (
    <Button tone="quiet" onClick={() => put(showing)} aria-keyshortcuts="s">
      <ScreenIcon /> {steps.putOnScreen}
    </Button>
  )
}
