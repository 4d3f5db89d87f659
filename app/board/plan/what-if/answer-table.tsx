import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import { isLowConfidence } from '@/lib/forecast/loss-by-frequency.ts'
import type { Prediction } from '@/lib/forecast/prediction.ts'
import type { Change, ScenarioAnswer } from '@/lib/forecast/scenario-answer.ts'
import { Figure } from '../figure.tsx'
import styles from './answer-table.module.css'

interface AnswerTableProps {
  readonly before: Forecast
  readonly after: Forecast
  readonly answer: ScenarioAnswer
}

/** Each number before the change, with it, and the change itself with its interval. */
export function AnswerTable({ before, after, answer }: AnswerTableProps) {
  const { forecast, whatIf } = useMessages()
  const speechOf = (of: Forecast, condition: string) => of.speech.find((each) => each.condition === condition)?.aided
  return (
    <table className={styles.table}>
      <caption className={styles.caption}>
        {whatIf.answer} <span className={styles.note}>{whatIf.changeNote}</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">{forecast.frequency}</th>
          <th scope="col">{whatIf.before}</th>
          <th scope="col">{whatIf.after}</th>
          <th scope="col">{whatIf.change}</th>
        </tr>
      </thead>
      <tbody>
        {answer.byFrequency.map(({ frequency, aidedThreshold }) => (
          <Row
            key={frequency}
            name={forecast.hertz(frequency)}
            remark={isLowConfidence(frequency) ? whatIf.lowConfidence : undefined}
            unit={forecast.unit.threshold}
            before={before.byFrequency.find((at) => at.frequency === frequency)?.aidedThreshold}
            after={after.byFrequency.find((at) => at.frequency === frequency)?.aidedThreshold}
            change={aidedThreshold}
          />
        ))}
      </tbody>
      <tbody className={styles.sums}>
        <Row
          name={whatIf.mean}
          unit={forecast.unit.threshold}
          before={before.fourTone.aidedThreshold}
          after={after.fourTone.aidedThreshold}
          change={answer.meanAidedThreshold}
        />
        {answer.wordScores.map(({ variant, score }) => (
          <Row
            key={variant}
            name={[`${whatIf.words}, ${forecast.unit.score}`, forecast.variant[variant]].filter(Boolean).join(', ')}
            unit={forecast.unit.score}
            before={before.wordScores.find((each) => each.variant === variant)?.score}
            after={after.wordScores.find((each) => each.variant === variant)?.score}
            change={score}
          />
        ))}
        {answer.speech.map(({ condition, index }) => (
          <Row
            key={condition}
            name={whatIf.speech[condition]}
            unit={forecast.unit.index}
            before={speechOf(before, condition)}
            after={speechOf(after, condition)}
            change={index}
            isIndex
          />
        ))}
      </tbody>
    </table>
  )
}

interface RowProps {
  readonly name: string
  readonly remark?: string | undefined
  readonly unit: string
  readonly before: Prediction | undefined
  readonly after: Prediction | undefined
  readonly change: Change
  readonly isIndex?: boolean
}

function Row({ name, remark, unit, before, after, change, isIndex = false }: RowProps) {
  const { forecast, whatIf } = useMessages()
  const spell = isIndex ? forecast.hundredth : forecast.number
  return (
    <tr>
      <th scope="row">
        {name} {remark !== undefined && <span className={styles.remark}>△ {remark}</span>}
      </th>
      {[before, after].map((prediction, place) => (
        <td key={place === 0 ? whatIf.before : whatIf.after}>
          {prediction !== undefined && (
            <Figure
              what={`${name}, ${place === 0 ? whatIf.before : whatIf.after}`}
              unit={unit}
              prediction={prediction}
              spell={spell}
            />
          )}
        </td>
      ))}
      <td>
        <ChangeFigure change={change} isIndex={isIndex} />
      </td>
    </tr>
  )
}

function ChangeFigure({ change, isIndex }: { readonly change: Change; readonly isIndex: boolean }) {
  const { whatIf } = useMessages()
  if (change.kind === 'absent') return <span className={styles.remark}>{whatIf.noChange}</span>
  const spell = isIndex ? whatIf.signedHundredth : whatIf.signed
  return (
    <span className={styles.change}>
      <b>{spell(change.value)}</b>
      <span className={styles.interval}>{whatIf.to(spell(change.interval.low), spell(change.interval.high))}</span>
    </span>
  )
}
