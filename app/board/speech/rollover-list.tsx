import { SourceLine } from '@/app/board/measures/source-line.tsx'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-speech.ts'
import { type Rollover, rolloverCriteria, type ScoreAtLevel } from '@/lib/speech/rollover.ts'
import type { RolloverReading } from './score-reading.ts'
import styles from './speech-list.module.css'

/** Rollover of each ear that was tested at several levels on one day. */
export function RolloverList({ rollovers }: { rollovers: readonly RolloverReading[] }) {
  const { speech } = useMessages()
  if (rollovers.length === 0) return null
  return (
    <ul className={styles.list}>
      {rollovers.map(({ ear, condition, performedOn, result }) => (
        <li
          key={`${ear} ${condition} ${performedOn}`}
          className={styles.test}
          data-rollover={result.kind}
          data-ear={ear}
        >
          {ear === 'both' ? speech.fields.ears.both : <EarSign ear={ear} />}{' '}
          {result.kind === 'evaluable' ? <Evaluated result={result} /> : speech.rollover[result.reason]}
        </li>
      ))}
    </ul>
  )
}

function Evaluated({ result }: { result: Extract<Rollover, { kind: 'evaluable' }> }) {
  const { rollover, percent } = useMessages().speech
  const { index, best, poorest, criteria, drop } = result
  const exceeded = criteria
    .filter((criterion) => criterion.exceeded)
    .map(({ criterion }) => rollover.criteria[criterion.id])
  const isReal = drop.verdict === 'lower'
  const of = ({ score }: ScoreAtLevel) => percent(score.correct / score.presented)
  const [source] = rolloverCriteria
  return (
    <>
      <StateSign tone={exceeded.length > 0 && isReal ? 'caution' : 'quiet'}>{rollover.title(index)}</StateSign>
      <span className={styles.second}>
        {rollover.points(of(best), best.levelDb, of(poorest), poorest.levelDb)}{' '}
        {isReal ? rollover.significant : rollover.chance}{' '}
        {exceeded.length > 0 ? rollover.exceeds(exceeded) : rollover.exceedsNone}{' '}
        {source !== undefined && <SourceLine of={source} />}
      </span>
    </>
  )
}
