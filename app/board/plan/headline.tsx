import type { ReactNode } from 'react'
import { type Messages, useMessages } from '@/app/messages/for-forecast.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import type { FourToneForecast } from '@/lib/forecast/four-tone.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import type { WordScoreForecast } from '@/lib/forecast/word-score.ts'
import { Figure, type OnWhy } from './figure.tsx'
import styles from './headline.module.css'

interface HeadlineProps {
  readonly forecast: Forecast
  readonly quantities: readonly (keyof FourToneForecast)[]
  /** under the word score */
  readonly wordHint: string
  readonly onWhy?: OnWhy | undefined
}

/** The numbers that are asked for first: means over four frequencies, and words. */
export function Headline({ forecast, quantities, wordHint, onWhy }: HeadlineProps) {
  const { forecast: words } = useMessages()
  const { fourTone, wordScores } = forecast
  return (
    <section className={styles.means} aria-label={words.headlineNote}>
      <p className={styles.note}>{words.headlineNote}</p>
      <dl className={styles.headline}>
        {quantities.map((name) => (
          <Tile key={name} label={words.quantity[name]} hint={words.quantityHint[name]}>
            <TileFigure
              what={`${words.quantity[name]}, ${words.fourTone}`}
              unit={name === 'aidedThreshold' ? words.unit.threshold : words.unit.gain}
              prediction={fourTone[name]}
              onWhy={onWhy}
            />
          </Tile>
        ))}
        <Tile label={words.quantity.wordScore} hint={wordHint} className={styles.words}>
          <WordScores scores={wordScores} onWhy={onWhy} />
        </Tile>
      </dl>
    </section>
  )
}

/** What stands behind the word score, and what it leaves open. */
export function wordScoreHint(scores: readonly WordScoreForecast[], words: Messages['forecast']): string {
  const remarks = new Set(scores.flatMap(({ score }) => (score.kind === 'absent' ? [] : score.basis.remarks)))
  const parts = [words.quantityHint.wordScore]
  if (remarks.has('not-capped')) parts.push(words.notCapped)
  if (remarks.has('couplings-alike') && scores.length > 1) parts.push(words.couplingsAlike)
  return parts.join('; ')
}

interface TileProps {
  readonly label: string
  readonly hint: string
  readonly className?: string | undefined
  readonly children: ReactNode
}

function Tile({ label, hint, className = '', children }: TileProps) {
  return (
    <div className={`${styles.tile} ${className}`}>
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
