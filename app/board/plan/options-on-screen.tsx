'use client'

import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import { ScreenCard } from '@/app/screen/screen-card.tsx'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import { isOwnProfile, optionKey, plannedOption } from './case-forecast.ts'
import { WeakMark } from './figure.tsx'
import { figureText } from './figure-words.ts'
import { toneOf } from './option-fitting.tsx'
import { optionText } from './option-text.ts'
import styles from './options-on-screen.module.css'
import { shortRefusalText } from './refusal-text.ts'
import { useForecast } from './use-forecast.ts'

/** Every option for the same ear with its expected aided mean, for the main screen. */
export function OptionsOnScreen() {
  const { forecast, words } = useMessages()
  const { plan, options } = useForecast()
  const planned = plan && plannedOption(plan, options)
  // The room compares classes; what a team entered beside them is read at the desk.
  const compared = options.filter((option) => !isOwnProfile(option))
  return (
    <ScreenCard
      kind={forecast.options}
      aside={plan && words.ear[plan.ear]}
      foot={
        <span className={styles.cautions}>
          <span>{`△ ${forecast.weakShort}`}</span>
          <span>{forecast.optionsOverlap}</span>
          <span>{forecast.cautionShort}</span>
        </span>
      }
    >
      {compared.length === 0 ? (
        <p className={styles.none}>{forecast.refusal['no-plan']()}</p>
      ) : (
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">{forecast.option}</th>
              <th scope="col">{forecast.aidedMeanWithInterval}</th>
              <th scope="col">{forecast.quantity.headroom}</th>
            </tr>
          </thead>
          <tbody>
            {compared.map((row) => (
              <tr key={optionKey(row)} data-planned={row === planned}>
                <th scope="row">
                  {optionText(row.option, undefined, words)}{' '}
                  {row === planned && <StateSign tone="accent">{forecast.planned}</StateSign>}
                </th>
                <Numbers outcome={row.outcome} />
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </ScreenCard>
  )
}

function Numbers({ outcome }: Pick<EarOption, 'outcome'>) {
  const { forecast: words, words: shared } = useMessages()
  if (!outcome.ok)
    return (
      <td colSpan={2} className={styles.reason}>
        {shortRefusalText(outcome.refusal, words, shared)}
      </td>
    )
  const { fourTone, fitting } = outcome.forecast
  return (
    <>
      <td>
        <InOneLine prediction={fourTone.aidedThreshold} />
      </td>
      <td>
        {fitting !== undefined && fitting !== 'inside' && (
          <StateSign tone={toneOf[fitting]}>{words.verdictSign[fitting]}</StateSign>
        )}
      </td>
    </>
  )
}

function InOneLine({ prediction }: { prediction: Prediction }) {
  const { forecast } = useMessages()
  if (prediction.kind === 'absent') return <span className={styles.reason}>{forecast.absence[prediction.reason]}</span>
  return (
    <>
      <strong className={styles.number}>{figureText(prediction, forecast)}</strong>
      <WeakMark basis={prediction.basis} />{' '}
      {prediction.kind === 'estimate' && (
        <span className={styles.reason}>{forecast.range(prediction.interval.low, prediction.interval.high)}</span>
      )}
    </>
  )
}
