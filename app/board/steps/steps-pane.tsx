'use client'

import { type KeyboardEvent, useMemo, useRef, useState } from 'react'
import { useBoard, useMay, useSingle, useTable } from '@/app/board/board-context.tsx'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { addStep, moveStep } from '@/lib/board/edits/decisions.ts'
import { addTypicalSteps, rewordStep, shiftStep } from '@/lib/board/edits/steps.ts'
import { removeRecord } from '@/lib/board/edits/writing.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import { StepItem, type StepRights } from './step-item.tsx'
import { StepWordsForm } from './step-words.tsx'
import styles from './steps-pane.module.css'
import { useNow } from './use-now.ts'
import { UsualSteps } from './usual-steps.tsx'

const showing: Showing = { kind: 'steps' }
const tickMs = 10_000
const emptyWords = { title: '', check: '', hazard: '' }

type Asking = { readonly what: 'add' | 'usual' } | { readonly what: 'edit' | 'remove'; readonly step: OperativeStep }

/** Steps of the operation in order, with what is under way and how long; keys work on a focused step. */
export default function StepsPane() {
  const { steps: labels } = useMessages()
  const table = useTable('steps')
  const steps = useMemo(() => table.toSorted(byRank), [table])
  const [asking, setAsking] = useState<Asking>()
  const may = useMay()
  const onScreenKey = usePutOnScreenKey(showing)
  const mayAdd = may.mayCreate('steps')
  const done = steps.filter(({ state }) => state === 'done').length
  return (
    <Pane title={labels.paneTitle} actions={<PutStepsOnScreen />}>
      <div className={styles.parts} {...onScreenKey}>
        {steps.length > 0 && <p className={styles.progress}>{labels.progress(done, steps.length)}</p>}
        {steps.length === 0 ? (
          <EmptyHint title={labels.none}>{mayAdd ? labels.noneHintEdit : labels.noneHintRead}</EmptyHint>
        ) : (
          <StepList steps={steps} onAsk={setAsking} />
        )}
        {mayAdd && <AddBar onAsk={setAsking} />}
        {mayAdd && steps.length > 0 && <Keys />}
      </div>
      <StepDialog asking={asking} onClose={() => setAsking(undefined)} />
    </Pane>
  )
}

function StepList({ steps, onAsk }: { steps: readonly OperativeStep[]; onAsk: (asking: Asking) => void }) {
  const now = useNow(tickMs)
  const [open, setOpen] = useState<string>()
  const list = useRef<HTMLOListElement>(null)
  const rightsOn = useStepRights(steps, onAsk)
  const next = steps.find(({ state }) => state === 'ahead')?.id
  return (
    <ol className={styles.list} ref={list} onKeyDown={(event) => focusNeighbour(event, list.current)}>
      {steps.map((step, index) => (
        <StepItem
          key={step.id}
          step={step}
          number={index + 1}
          isNext={step.id === next}
          now={now}
          open={open === step.id}
          onToggle={() => setOpen(open === step.id ? undefined : step.id)}
          rights={rightsOn(step)}
        />
      ))}
    </ol>
  )
}

function useStepRights(steps: readonly OperativeStep[], onAsk: (asking: Asking) => void) {
  const { record, pen } = useBoard()
  const { steps: labels } = useMessages()
  const may = useMay()
  const say = useSay()
  return (step: OperativeStep): StepRights => ({
    mayMove: (to) => may.mayMove('steps', step, to),
    onMove: (to) => moveStep(record, pen, step, to),
    ...(may.mayChange('steps', 'rank', step) && {
      onShift: (by: -1 | 1) => {
        const place = steps.indexOf(step) + 1 + by
        if (place < 1 || place > steps.length) return
        shiftStep(record, step.id, by)
        say(labels.nowNumber(step.title, place))
      },
    }),
    ...(may.mayChange('steps', 'title', step) && { onEdit: () => onAsk({ what: 'edit', step }) }),
    ...(may.mayRemove('steps', step) && { onRemove: () => onAsk({ what: 'remove', step }) }),
  })
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

function StepDialog({ asking, onClose }: { asking: Asking | undefined; onClose: () => void }) {
  const { steps } = useMessages()
  const titles = { add: steps.addTitle, usual: steps.usualTitle, edit: steps.editTitle, remove: steps.remove }
  return (
    <Dialog open={asking !== undefined} onClose={onClose} title={asking === undefined ? '' : titles[asking.what]}>
      {asking !== undefined && <Asked asking={asking} onClose={onClose} />}
    </Dialog>
  )
}

function Asked({ asking, onClose }: { asking: Asking; onClose: () => void }) {
  const { record, pen } = useBoard()
  const { steps } = useMessages()
  const plan = useSingle('plan')
  const say = useSay()
  const and = (act: () => void) => {
    act()
    onClose()
  }
  switch (asking.what) {
    case 'add':
      return (
        <StepWordsForm
          words={emptyWords}
          submit={steps.add}
          onSubmit={(words) => and(() => addStep(record, pen, words))}
        />
      )
    case 'usual':
      return (
        <UsualSteps
          plannedSite={plan?.couplingSite}
          onChoose={(approach) => and(() => say(steps.usualAdded(addTypicalSteps(record, pen, approach).length)))}
        />
      )
    case 'edit':
      return (
        <StepWordsForm
          words={asking.step}
          submit={steps.editTitle}
          onSubmit={(words) => and(() => rewordStep(record, asking.step.id, words))}
        />
      )
    case 'remove':
      return (
        <div className={styles.ask}>
          <p>{steps.removeAsk(asking.step.title)}</p>
          <div className={styles.bar}>
            <Button tone="stop" onClick={() => and(() => removeRecord(record, 'steps', asking.step.id))}>
              {steps.remove}
            </Button>
            <Button onClick={onClose}>{steps.keep}</Button>
          </div>
        </div>
      )
    default:
      return asking satisfies never
  }
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
