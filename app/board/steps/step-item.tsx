'use client'

import type { KeyboardEvent, ReactNode } from 'react'
import { Button, type ButtonProps } from '@/app/components/button.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { DownIcon, UpIcon } from '@/app/components/icons.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-steps.ts'
import type { OperativeStep, StepState } from '@/lib/board/records/operative-step.ts'
import { StepDetail } from './step-detail.tsx'
import type { StepFacts } from './step-facts.ts'
import styles from './step-item.module.css'
import { minutesOf, movesOf, stateByKey } from './step-moves.ts'

/** What this person may do with one step; what is absent is not offered. */
export interface StepRights {
  mayMove(to: StepState): boolean
  readonly onMove: (to: StepState) => void
  readonly onShift?: (by: -1 | 1) => void
  readonly onEdit?: () => void
  readonly onRemove?: () => void
}

interface StepItemProps {
  readonly step: OperativeStep
  readonly facts: StepFacts
  readonly number: number
  /** the first step that is still ahead */
  readonly isNext: boolean
  readonly now: Date
  readonly open: boolean
  readonly onToggle: () => void
  readonly rights: StepRights
  /** what hangs on the step: its photographs */
  readonly children?: ReactNode
}

const tones: Record<StepState, Tone> = { ahead: 'quiet', 'under-way': 'accent', done: 'good', 'left-out': 'superseded' }

/** One step: number, title, state and time; opened it shows check, hazard and what can be done. Keys work on its title. */
export function StepItem({ step, facts, number, isNext, now, open, onToggle, rights, children }: StepItemProps) {
  const { words } = useMessages()
  const detailId = `step-${step.id}`
  const [main] = movesOf(step).filter(({ to }) => rights.mayMove(to))
  return (
    <li className={styles.step} data-state={step.state}>
      <span className={styles.number} aria-hidden="true">
        {number}
      </span>
      <button
        type="button"
        className={styles.title}
        data-step={step.id}
        aria-expanded={open}
        aria-controls={detailId}
        aria-current={step.state === 'under-way' ? 'step' : undefined}
        onClick={onToggle}
        onKeyDown={(event) => onStepKey(event, step, rights)}
      >
        {step.title}
      </button>
      <span className={styles.state}>
        <StateSign tone={tones[step.state]}>{words.stepState[step.state]}</StateSign>
        <Time step={step} now={now} />
        <Marks step={step} facts={facts} />
      </span>
      {main !== undefined && <Act step={step} move={main} onMove={rights.onMove} tone={mainTone(step, isNext)} />}
      <div className={styles.detail} id={detailId} hidden={!open && step.state !== 'under-way'}>
        {(open || step.state === 'under-way') && <StepDetail step={step} facts={facts} />}
        {open && <Acts step={step} rights={rights} />}
      </div>
      {children}
    </li>
  )
}

function onStepKey(event: KeyboardEvent<HTMLElement>, step: OperativeStep, rights: StepRights): void {
  if (event.ctrlKey || event.metaKey) return
  const act = event.altKey ? altKeyAct(event.key, rights) : keyAct(event.key, step, rights)
  if (act === undefined) return
  event.preventDefault()
  act()
}

function altKeyAct(key: string, { onShift }: StepRights): (() => void) | undefined {
  if (onShift === undefined || (key !== 'ArrowUp' && key !== 'ArrowDown')) return undefined
  return () => onShift(key === 'ArrowUp' ? -1 : 1)
}

function keyAct(key: string, step: OperativeStep, rights: StepRights): (() => void) | undefined {
  if (key === 'e') return rights.onEdit
  const to = stateByKey(key, step)
  return to === undefined || !rights.mayMove(to) ? undefined : () => rights.onMove(to)
}

function Time({ step, now }: { step: OperativeStep; now: Date }) {
  const { steps } = useMessages()
  const minutes = minutesOf(step, now)
  if (minutes === undefined || step.state === 'ahead' || step.state === 'left-out') return null
  const time = steps.minutes(minutes)
  return <span className={styles.time}>{step.state === 'done' ? steps.took(time) : steps.running(time)}</span>
}

/** Seen while a step is closed: that it went on without a prerequisite, and how much was written in it. */
function Marks({ step, facts }: { readonly step: OperativeStep; readonly facts: StepFacts }) {
  const { steps } = useMessages()
  const open = facts.needs.filter(({ isOpen }) => isOpen).length
  const written = facts.exceptions.length + facts.entries.length
  return (
    <>
      {open > 0 && step.state !== 'ahead' && step.state !== 'left-out' && (
        <StateSign tone="caution">{steps.openNeeds(open)}</StateSign>
      )}
      {written > 0 && <span className={styles.time}>{steps.entries(written)}</span>}
    </>
  )
}

function Acts({ step, rights }: { step: OperativeStep; rights: StepRights }) {
  const { steps } = useMessages()
  const { onShift, onEdit, onRemove } = rights
  const others = movesOf(step)
    .filter(({ to }) => rights.mayMove(to))
    .slice(1)
  return (
    <div className={styles.acts}>
      {others.map((move) => (
        <Act key={move.act} step={step} move={move} onMove={rights.onMove} />
      ))}
      {onShift !== undefined && (
        <>
          <IconButton label={steps.named(steps.up, step.title)} onClick={() => onShift(-1)}>
            <UpIcon />
          </IconButton>
          <IconButton label={steps.named(steps.down, step.title)} onClick={() => onShift(1)}>
            <DownIcon />
          </IconButton>
        </>
      )}
      {onEdit !== undefined && (
        <Button tone="quiet" aria-label={steps.named(steps.edit, step.title)} onClick={onEdit}>
          {steps.edit}
        </Button>
      )}
      {onRemove !== undefined && (
        <Button tone="quiet" aria-label={steps.named(steps.remove, step.title)} onClick={onRemove}>
          {steps.remove}
        </Button>
      )}
    </div>
  )
}

interface ActProps {
  readonly step: OperativeStep
  readonly move: ReturnType<typeof movesOf>[number]
  readonly onMove: (to: StepState) => void
  /** of the main act; the others are quiet */
  readonly tone?: ButtonProps['tone']
}

function mainTone({ state }: OperativeStep, isNext: boolean): ButtonProps['tone'] {
  if (state === 'under-way') return 'accent'
  return isNext ? 'plain' : 'quiet'
}

function Act({ step, move, onMove, tone }: ActProps) {
  const { steps } = useMessages()
  return (
    <Button
      tone={tone ?? 'quiet'}
      className={tone === undefined ? '' : (styles.main ?? '')}
      aria-label={steps.named(steps[move.act], step.title)}
      onClick={() => onMove(move.to)}
    >
      {steps[move.act]}
    </Button>
  )
}
