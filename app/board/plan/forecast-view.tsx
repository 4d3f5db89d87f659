'use client'

import type { ReactNode } from 'react'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { EarOutcome } from '@/lib/forecast/ear-options.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { OnWhy } from './figure.tsx'
import styles from './forecast-view.module.css'
import { FrequencyStrip } from './frequency-strip.tsx'
import { FrequencyTable } from './frequency-table.tsx'
import { Headline, wordScoreHint } from './headline.tsx'
import { toneOf } from './option-fitting.tsx'
import { optionText } from './option-text.ts'
import { refusalText } from './refusal-text.ts'

interface ForecastViewProps {
  readonly outcome: EarOutcome
  readonly ear?: Ear | undefined
  /** `screen`: type of the main screen, a strip instead of the table, nothing to press */
  readonly scale: 'pane' | 'screen'
  readonly onWhy?: OnWhy
  /** the forecast drawn, above its numbers by frequency */
  readonly chart?: ReactNode
  /** stands between the drawing and the numbers by frequency, and stays where there is no forecast */
  readonly whatIf?: ReactNode
}

/** The forecast of one option: which, how it fits, the numbers first asked for, then each frequency, with cautions. */
export function ForecastView({ outcome, ear, scale, onWhy, chart, whatIf }: ForecastViewProps) {
  const { forecast: words, words: shared } = useMessages()
  if (!outcome.ok)
    return (
      <div className={styles.view} data-scale={scale}>
        <p className={styles.refused}>
          <StateSign tone="caution">{words.noForecast}</StateSign> {refusalText(outcome.refusal, words, shared)}
        </p>
        {whatIf}
      </div>
    )
  const { forecast } = outcome
  return (
    <div className={styles.view} data-scale={scale}>
      {scale === 'pane' ? (
        <InPane forecast={forecast} ear={ear} onWhy={onWhy} chart={chart} whatIf={whatIf} />
      ) : (
        <OnScreen forecast={forecast} />
      )}
    </div>
  )
}

interface PartsProps {
  readonly forecast: Forecast
  readonly ear: Ear | undefined
  readonly onWhy?: OnWhy | undefined
  readonly chart: ReactNode
  readonly whatIf: ReactNode
}

function InPane({ forecast, ear, onWhy, chart, whatIf }: PartsProps) {
  const { forecast: words, words: shared } = useMessages()
  const { option, fitting, concerns, candidacy, byFrequency, weak } = forecast
  return (
    <>
      <div className={styles.option}>
        <p className={styles.optionName}>{optionText(option, ear, shared)}</p>
        {fitting !== undefined && (
          <p className={styles.note}>
            <StateSign tone={toneOf[fitting]}>{words.verdict[fitting]}</StateSign> {words.verdictHint}
          </p>
        )}
        <Concerns concerns={concerns} />
        <p className={styles.note}>{shared.labelled(words.candidacy, words.candidacyRemark(candidacy.remark))}</p>
      </div>
      <Headline
        forecast={forecast}
        quantities={['aidedThreshold', 'residualGap', 'effectiveGain', 'functionalGain']}
        wordHint={wordScoreHint(forecast.wordScores, words)}
        onWhy={onWhy}
      />
      {chart}
      {whatIf}
      <FrequencyTable byFrequency={byFrequency} onWhy={onWhy} />
      {weak && <Weak note={words.weakNote} />}
      <ul className={styles.cautions} aria-label={words.cautionsTitle}>
        {words.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </>
  )
}

/** As much as a room reads from ten metres; the card around it names the option. */
function OnScreen({ forecast }: Pick<PartsProps, 'forecast'>) {
  const { forecast: words } = useMessages()
  const { fitting, concerns, byFrequency, weak } = forecast
  return (
    <>
      {fitting !== undefined && fitting !== 'inside' && (
        <p className={styles.note}>
          <StateSign tone={toneOf[fitting]}>{words.verdict[fitting]}</StateSign>
        </p>
      )}
      <Concerns concerns={concerns} />
      <Headline forecast={forecast} quantities={['aidedThreshold', 'residualGap']} wordHint={words.wordScoreBrief} />
      <FrequencyStrip byFrequency={byFrequency} />
      <div className={styles.foot}>
        {weak && <Weak note={words.weakShort} />}
        <p className={styles.note}>{words.cautionShort}</p>
      </div>
    </>
  )
}

function Concerns({ concerns }: Pick<Forecast, 'concerns'>) {
  const { forecast } = useMessages()
  return concerns.map((concern) => (
    <p key={concern} className={styles.note}>
      <StateSign tone="caution">{forecast.concern}</StateSign> {forecast.concerns[concern]}
    </p>
  ))
}

function Weak({ note }: { note: string }) {
  const { forecast } = useMessages()
  return (
    <p className={styles.note}>
      <StateSign tone="caution">{forecast.weak}</StateSign> {note}
    </p>
  )
}
