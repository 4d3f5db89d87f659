import type { ButtonHTMLAttributes, ReactNode } from 'react'
import { VisuallyHidden } from '@/app/components/visually-hidden.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import { isWeak } from '@/lib/forecast/evidence.ts'
import type { Basis, Prediction } from '@/lib/forecast/prediction.ts'
import styles from './figure.module.css'
import { figureText, rangeText, type Spell, spokenFigure, type WhySubject, whyOf } from './figure-words.ts'

export type OnWhy = (subject: WhySubject) => void

interface FigureProps {
  readonly what: string
  readonly unit: string
  readonly prediction: Prediction
  readonly spell?: Spell | undefined
  /** absent where nobody can press anything: the main screen */
  readonly onWhy?: OnWhy | undefined
  readonly showUnit?: boolean
  /** place in a grid of numbers that the arrow keys move through */
  readonly cell?: ButtonHTMLAttributes<HTMLButtonElement>
}

/** One number of the forecast with its interval and, if its evidence is weak, the mark of that. Pressed, it says why. */
export function Figure({ what, unit, prediction, spell, onWhy, showUnit = false, cell }: FigureProps) {
  const { forecast } = useMessages()
  if (prediction.kind === 'absent') return <Absent reason={forecast.absence[prediction.reason]} />
  return (
    <WhyButton
      spoken={spokenFigure(prediction, unit, forecast, spell)}
      subject={whyOf(what, unit, prediction, forecast, spell)}
      onWhy={onWhy}
      cell={cell}
    >
      <span className={styles.value}>
        <span className={styles.number}>{figureText(prediction, forecast, spell)}</span>
        {showUnit && <span className={styles.unit}> {unit}</span>}
        <WeakMark basis={prediction.basis} />
      </span>
      {prediction.kind === 'estimate' && (
        <span className={styles.interval}>{rangeText(prediction.interval, forecast, spell)}</span>
      )}
    </WhyButton>
  )
}

interface WhyButtonProps {
  readonly spoken: string
  readonly subject: WhySubject
  readonly onWhy: OnWhy | undefined
  readonly cell?: ButtonHTMLAttributes<HTMLButtonElement> | undefined
  readonly children: ReactNode
}

export function WhyButton({ spoken, subject, onWhy, cell, children }: WhyButtonProps) {
  const { forecast, words } = useMessages()
  if (onWhy === undefined)
    return (
      <span className={styles.figure}>
        <span aria-hidden="true" className={styles.shown}>
          {children}
        </span>
        <VisuallyHidden>{words.labelled(subject.what, spoken)}</VisuallyHidden>
      </span>
    )
  return (
    <button
      type="button"
      className={styles.figure}
      aria-label={forecast.whyButton(subject.what, spoken)}
      onClick={() => onWhy(subject)}
      {...cell}
    >
      <span aria-hidden="true" className={styles.shown}>
        {children}
      </span>
    </button>
  )
}

export function WeakMark({ basis }: { basis: Basis }) {
  if (!basis.sources.some(isWeak)) return null
  return <span className={styles.weak}>△</span>
}

export function Absent({ reason }: { reason: string }) {
  const { forecast } = useMessages()
  return (
    <span className={styles.absent} title={reason}>
      <span aria-hidden="true">{forecast.none}</span>
      <VisuallyHidden>{reason}</VisuallyHidden>
    </span>
  )
}
