import type { ButtonHTMLAttributes } from 'react'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import { Absent, type OnWhy, WeakMark, WhyButton } from './figure.tsx'
import styles from './figure-line.module.css'
import { figureText, rangeText, type Spell, spokenFigure, whyOf } from './figure-words.ts'

interface FigureLineProps {
  /** in front of the number */
  readonly label: string
  /** the whole name, for the reason and for a voice */
  readonly what: string
  readonly unit: string
  readonly prediction: Prediction
  readonly spell?: Spell | undefined
  readonly onWhy?: OnWhy | undefined
  readonly cell?: ButtonHTMLAttributes<HTMLButtonElement> | undefined
}

/** One of several numbers of an option in a line of its own: name, value, interval. Pressed, it says why. */
export function FigureLine({ label, what, unit, prediction, spell, onWhy, cell }: FigureLineProps) {
  const { forecast, words } = useMessages()
  return (
    <span className={styles.line}>
      <span className={styles.label} aria-hidden="true">
        {label}
      </span>
      {prediction.kind === 'absent' ? (
        <Absent reason={words.labelled(what, forecast.absence[prediction.reason])} />
      ) : (
        <WhyButton
          spoken={spokenFigure(prediction, unit, forecast, spell)}
          subject={whyOf(what, unit, prediction, forecast, spell)}
          onWhy={onWhy}
          cell={cell}
        >
          <span className={styles.figure}>
            <span className={styles.number}>
              {figureText(prediction, forecast, spell)}
              <WeakMark basis={prediction.basis} />
            </span>
            {prediction.kind === 'estimate' && (
              <span className={styles.interval}>{rangeText(prediction.interval, forecast, spell)}</span>
            )}
          </span>
        </WhyButton>
      )}
    </span>
  )
}
