import type { ReactNode } from 'react'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import type { WordScoreForecast } from '@/lib/forecast/word-score.ts'
import { Figure, type OnWhy } from './figure.tsx'
import styles from './headline.module.css'

interface HeadlineProps {
  readonly forecast: Forecast
  readonly onWhy?: OnWhy | undefined
}

/** The numbers a surgeon is asked for first: aided mean, residual gap, effective gain, functional gain, words. */
export function Headline({ forecast, onWhy }: HeadlineProps) {
  const { forecast: words } = useMessages()
  const { fourTone, wordScores } = forecast
  const mean = (name: keyof typeof fourTone, unit: string) => (
    <Tile label={words.quantity[name]} hint={`${words.quantityHint[name]}; ${words.fourTone}`}>
      <TileFigure
        what={`${words.quantity[name]}, ${words.fourTone}`}
        unit={unit}
        prediction={fourTone[name]}
        onWhy={onWhy}
      />
    </Tile>
  )
  return (
    <dl className={styles.headline}>
      {mean('aidedThreshold', words.unit.threshold)}
      {mean('residualGap', words.unit.gain)}
      {mean('effectiveGain', words.unit.gain)}
      {mean('functionalGain', words.unit.gain)}
      <Tile label={words.quantity.wordScore} hint={words.quantityHint.wordScore}>
        <WordScores scores={wordScores} onWhy={onWhy} />
      </Tile>
    </dl>
  )
}

function Tile({ label, hint, children }: { label: string; hint: string; children: ReactNode }) {
  return (
    <div className={styles.tile}>
      <dt className={styles.label}>{label}</dt>
      <dd className={styles.figures}>{children}</dd>
      <dd className={styles.hint}>{hint}</dd>
    </div>
  )
}

interface TileFigureProps {
  readonly what: string
  readonly unit: string
  readonly prediction: Prediction
  readonly onWhy: OnWhy | undefined
}

function TileFigure({ what, unit, prediction, onWhy }: TileFigureProps) {
  const { forecast } = useMessages()
  if (prediction.kind === 'absent') return <span className={styles.absent}>{forecast.absence[prediction.reason]}</span>
  return <Figure what={what} unit={unit} prediction={prediction} onWhy={onWhy} showUnit />
}

function WordScores({ scores, onWhy }: { scores: readonly WordScoreForecast[]; onWhy: OnWhy | undefined }) {
  const { forecast } = useMessages()
  if (scores.length === 0) return <span className={styles.absent}>{forecast.absence['no-published-word-score']}</span>
  return scores.map(({ variant, score }) => (
    <span key={variant} className={styles.variant}>
      <TileFigure
        what={[forecast.quantity.wordScore, forecast.variant[variant]].filter(Boolean).join(', ')}
        unit={forecast.unit.score}
        prediction={score}
        onWhy={onWhy}
      />
      {scores.length > 1 && <span className={styles.variantName}>{forecast.variant[variant]}</span>}
    </span>
  ))
}
