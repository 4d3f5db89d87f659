'use client'

import { optionText } from '@/app/board/plan/option-text.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { ForecastRecord, ScenarioRecord } from '@/lib/board/records/sealed-record.ts'
import { ScreenCard } from './screen-card.tsx'
import { SealedFoot } from './sealed-foot.tsx'
import { BigNumber, NumbersByFrequency } from './sealed-numbers.tsx'
import styles from './sealed-view.module.css'
import { useWords } from './use-words.ts'

interface SealedForecastViewProps {
  readonly forecast: ForecastRecord
  readonly scenario?: ScenarioRecord | undefined
  readonly followed: boolean
}

/** A sealed forecast as it was sealed, by whom and when, and whether it still is the one that counts. */
export function SealedForecastView({ forecast: { content, author, at }, scenario, followed }: SealedForecastViewProps) {
  const { forecast, screens, words } = useMessages()
  const { moment } = useWords()
  const { screen } = screens
  const [wordScore] = content.wordScores
  return (
    <ScreenCard
      kind={screen.sealedForecast}
      aside={optionText(content.option, content.inputs.ear, words)}
      foot={<SealedFoot since={screen.sealedAt(moment(at))} author={author} content={content} />}
    >
      <div className={styles.body}>
        {followed && (
          <p className={styles.sign}>
            <StateSign tone="stop">{screen.followed}</StateSign>
          </p>
        )}
        {scenario !== undefined && <p className={styles.title}>{screen.underScenario(scenario.title)}</p>}
        <dl className={styles.numbers}>
          <BigNumber
            label={screen.meanAided}
            unit={forecast.unit.threshold}
            number={content.fourTone.aidedThreshold}
            hint={forecast.fourTone}
          />
          {wordScore !== undefined && (
            <BigNumber
              label={screen.words}
              unit={forecast.unit.score}
              number={wordScore.score}
              hint={[forecast.variant[wordScore.variant], forecast.quantityHint.wordScore].filter(Boolean).join(', ')}
            />
          )}
        </dl>
        <NumbersByFrequency content={content} />
      </div>
    </ScreenCard>
  )
}
