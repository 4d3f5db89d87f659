'use client'

import { useMemo } from 'react'
import { conditionParts } from '@/app/board/plan/what-if/spoken-answer.ts'
import { type Messages, useMessages } from '@/app/messages/for-follow-up.ts'
import { frequencyOf } from '@/app/screen/formats.ts'
import type { Audiogram } from '@/lib/audiometry/thresholds.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { SealedForecast } from '@/lib/devices/sealed-forecast.ts'
import { type ExplainedMiss, explainMiss, type TriedCause } from '@/lib/forecast/explained-miss.ts'
import { createMiddleEar } from '@/lib/middle-ear/drive-change.ts'
import styles from './result-section.module.css'
import wide from './wide-table.module.css'

interface MissExplainedProps {
  readonly content: SealedForecast
  readonly aided: Audiogram
  /** of the same visit, for its bone conduction */
  readonly unaided: HearingTest | undefined
}

/** One network for the page: it remembers what visits share. */
const middleEar = createMiddleEar()
const shown = 5

/** Which of the things that the model knows fits the result best, and whether that is more than luck. */
export function MissExplained({ content, aided, unaided }: MissExplainedProps) {
  const { followUp } = useMessages()
  const words = followUp.result
  const explanation = useMemo(() => {
    const bone = unaided && audiogramOf(unaided.points, 'bone')
    return explainMiss({ sealed: content, aided, bone, middleEar })
  }, [content, aided, unaided])
  return (
    <section className={styles.miss} aria-label={words.explain}>
      <h3 className={styles.heading}>{words.explain}</h3>
      {explanation.kind === 'absent' ? (
        <p>{explanation.reason === 'too-few-frequencies' ? words.tooFew : words.nothingToTry}</p>
      ) : (
        <Compared explanation={explanation} />
      )}
    </section>
  )
}

const causeText = ({ cause }: TriedCause, { followUp, whatIf }: Messages): string =>
  cause.kind === 'inner-ear' ? followUp.result.innerEar : conditionParts(cause.scenario, whatIf).join(', ')

function Compared({ explanation }: { readonly explanation: ExplainedMiss }) {
  const messages = useMessages()
  const { followUp, language } = messages
  const words = followUp.result
  const { tried, frequencies, chanceAtMost, verdict } = explanation
  const best = tried[0]
  if (best === undefined) return null
  const sentence = verdict === 'explained' ? words.explained : words.byChance
  return (
    <>
      <p className={styles.verdict} data-verdict={verdict}>
        {sentence(
          causeText(best, messages),
          words.ratio(best.likelihoodRatio),
          tried.length,
          words.chance(chanceAtMost),
        )}{' '}
        <span className={wide.fine}>{words.caution}</span>
      </p>
      <details className={styles.ranking}>
        <summary>{words.ranking}</summary>
        <div className={wide.scroll}>
          <table className={wide.table}>
            <thead>
              <tr>
                <th scope="col">{words.cause}</th>
                <th scope="col">{words.likelihood}</th>
                {frequencies.map((frequency) => (
                  <th key={frequency} scope="col">
                    {frequencyOf(frequency, language)}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {tried.slice(0, shown).map((one) => (
                <tr key={causeText(one, messages)}>
                  <th scope="row">{causeText(one, messages)}</th>
                  <td>{words.ratio(one.likelihoodRatio)}</td>
                  {frequencies.map((frequency) => (
                    <td key={frequency}>{followUp.signed(Math.round(one.shiftDb.get(frequency) ?? 0))}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </>
  )
}
