'use client'

import { optionText } from '@/app/board/plan/option-text.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { ScenarioRecord } from '@/lib/board/records/sealed-record.ts'
import { ScreenCard } from './screen-card.tsx'
import { SealedFoot } from './sealed-foot.tsx'
import { BigNumber, NumbersByFrequency } from './sealed-numbers.tsx'
import styles from './sealed-view.module.css'
import { useWords } from './use-words.ts'

interface ScenarioViewProps {
  readonly scenario: ScenarioRecord
  readonly superseded: boolean
}

/** "What if", and what it would do to the aided thresholds. */
export function ScenarioView({ scenario: { title, content, answer, author, at }, superseded }: ScenarioViewProps) {
  const { forecast, screens, words } = useMessages()
  const { moment } = useWords()
  const { screen } = screens
  return (
    <ScreenCard
      kind={screen.scenario}
      aside={optionText(content.option, content.inputs.ear, words)}
      foot={<SealedFoot since={screen.frozenAt(moment(at))} author={author} content={content} />}
    >
      <div className={styles.body}>
        {superseded && (
          <p className={styles.sign}>
            <StateSign tone="stop">{screen.scenarioSuperseded}</StateSign>
          </p>
        )}
        <p className={styles.title}>{title}</p>
        <dl className={styles.numbers}>
          <BigNumber
            label={screen.meanChange}
            unit={screen.moreIsWorse}
            number={answer.meanAidedThreshold}
            hint={screen.againstFound}
          />
          <BigNumber
            label={screen.meanAided}
            unit={forecast.unit.threshold}
            number={content.fourTone.aidedThreshold}
            hint={forecast.fourTone}
          />
        </dl>
        <NumbersByFrequency content={content} changes={answer.byFrequency} />
      </div>
    </ScreenCard>
  )
}
