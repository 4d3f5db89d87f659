'use client'

import { type ReactNode, useMemo } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import { changesNothing, type LossAt } from '@/lib/forecast/loss-by-frequency.ts'
import { type ScenarioAnswer, scenarioAnswer } from '@/lib/forecast/scenario-answer.ts'
import type { WhatIf } from '../case-forecast.ts'
import { refusalText } from '../refusal-text.ts'
import { AnswerTable } from './answer-table.tsx'
import { LossTable } from './loss-table.tsx'
import { ScenarioSliders } from './scenario-sliders.tsx'
import { spokenAnswer } from './spoken-answer.ts'
import styles from './what-if-section.module.css'

interface WhatIfSectionProps {
  readonly whatIf: WhatIf
  readonly incus: Plan['incus']
  /** the option that is shown, as the ear was found and under the scenario */
  readonly before: EarOption
  readonly after: EarOption
  /** by findings and scenario together, at the site of the option */
  readonly losses: readonly LossAt[]
  readonly onChange: (whatIf: WhatIf) => void
  /** freezing, for those who may */
  readonly freeze?: ReactNode
}

/** "What if": the sliders, the sentence for the room, and the numbers before and after. */
export function WhatIfSection({ whatIf, incus, before, after, losses, onChange, freeze }: WhatIfSectionProps) {
  const { whatIf: words } = useMessages()
  const { scenario } = whatIf
  const isNothing = changesNothing(scenario)
  const answer = useMemo(() => answerOf(before, after), [before, after])
  return (
    <div className={styles.section}>
      <div className={styles.head}>
        <p className={styles.note}>{words.hint}</p>
        <Button onClick={() => onChange({ ...whatIf, scenario: {} })} disabled={isNothing}>
          {words.reset}
        </Button>
      </div>
      {isNothing ? (
        <p className={styles.note}>{words.asFound}</p>
      ) : (
        <Sentence scenario={scenario} answer={answer?.answer} before={before} after={after} />
      )}
      <ScenarioSliders whatIf={whatIf} incus={incus} onChange={onChange} />
      {!isNothing && answer !== undefined && <AnswerTable {...answer} />}
      {!isNothing && freeze}
      {losses.length > 0 && <LossTable losses={losses} />}
    </div>
  )
}

function answerOf(before: EarOption, after: EarOption) {
  if (!before.outcome.ok || !after.outcome.ok) return undefined
  const both = { before: before.outcome.forecast, after: after.outcome.forecast }
  return { ...both, answer: scenarioAnswer(both.before, both.after) }
}

interface SentenceProps {
  readonly scenario: WhatIf['scenario']
  readonly answer: ScenarioAnswer | undefined
  readonly before: EarOption
  readonly after: EarOption
}

/** What a moderator reads aloud. It stands above the sliders, so that it is in view while they move. */
function Sentence({ scenario, answer, before, after }: SentenceProps) {
  const { forecast, whatIf: words, words: shared } = useMessages()
  const refused = [after, before].find(({ outcome }) => !outcome.ok)?.outcome
  const { deviceClass, couplingSite } = after.option
  const site = couplingSite === 'skull' ? undefined : shared.couplingSite[couplingSite]
  const option = words.spoken.option(shared.deviceClass[deviceClass], site)
  const reason = refused === undefined || refused.ok ? undefined : refusalText(refused.refusal, forecast, shared)
  return (
    <figure className={styles.sentence}>
      <figcaption className={styles.sentenceTitle}>{words.readAloud}</figcaption>
      <blockquote className={styles.spoken} data-answer={answer !== undefined}>
        {spokenAnswer({ scenario, option, answer, refused: reason, hertz: forecast.hertz }, words)}
      </blockquote>
    </figure>
  )
}
