'use client'

import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Forecast, ForecastOutcome } from '@/lib/forecast/forecast.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { OnWhy } from './figure.tsx'
import styles from './forecast-view.module.css'
import { FrequencyStrip } from './frequency-strip.tsx'
import { FrequencyTable } from './frequency-table.tsx'
import { Headline } from './headline.tsx'
import { toneOf } from './options-table.tsx'
import { refusalText } from './refusal-text.ts'

interface ForecastViewProps {
  readonly outcome: ForecastOutcome
  readonly ear?: Ear | undefined
  /** `screen`: type of the main screen, a strip instead of the table, nothing to press */
  readonly scale: 'pane' | 'screen'
  readonly onWhy?: OnWhy
}

/** The forecast of one option: which, how it fits, the numbers first asked for, then each frequency, with cautions. */
export function ForecastView({ outcome, ear, scale, onWhy }: ForecastViewProps) {
  const { forecast: words, words: shared } = useMessages()
  if (!outcome.ok)
    return (
      <div className={styles.view} data-scale={scale}>
        <p className={styles.refused}>
          <StateSign tone="caution">{words.noForecast}</StateSign> {refusalText(outcome.refusal, words, shared)}
        </p>
      </div>
    )
  const { forecast } = outcome
  return (
    <div className={styles.view} data-scale={scale}>
      <OptionLine forecast={forecast} ear={ear} />
      <Headline forecast={forecast} onWhy={onWhy} />
      {scale === 'pane' && onWhy !== undefined ? (
        <FrequencyTable byFrequency={forecast.byFrequency} onWhy={onWhy} />
      ) : (
        <FrequencyStrip byFrequency={forecast.byFrequency} />
      )}
      {forecast.weak && (
        <p className={styles.weak}>
          <StateSign tone="caution">{words.weak}</StateSign> {words.weakNote}
        </p>
      )}
      <Cautions />
    </div>
  )
}

function OptionLine({ forecast: { option, fitting, candidacy }, ear }: { forecast: Forecast; ear: Ear | undefined }) {
  const { forecast, words } = useMessages()
  const name = forecast.forOption(words.deviceClass[option.deviceClass], words.couplingSite[option.couplingSite])
  return (
    <div className={styles.option}>
      <p className={styles.optionName}>{ear === undefined ? name : `${words.ear[ear]}: ${name}`}</p>
      {fitting !== undefined && (
        <StateSign tone={toneOf[fitting]}>{`${forecast.verdict[fitting]} (${forecast.verdictHint})`}</StateSign>
      )}
      <p className={styles.candidacy}>{`${forecast.candidacy}: ${candidacy.remark}`}</p>
    </div>
  )
}

function Cautions() {
  const { forecast } = useMessages()
  return (
    <ul className={styles.cautions} aria-label={forecast.cautionsTitle}>
      {forecast.cautions.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  )
}
