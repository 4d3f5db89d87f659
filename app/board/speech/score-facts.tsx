import { SourceLine } from '@/app/board/measures/source-line.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-speech.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { intervalMethods } from '@/lib/speech/binomial-interval.ts'
import type { ScoreComparison } from '@/lib/speech/critical-difference.ts'
import type { Expectation, ScoreChange, ScoreReading } from './score-reading.ts'
import styles from './speech-list.module.css'
import { scoreWords } from './speech-words.ts'

const verdictTone: Readonly<Record<ScoreComparison['verdict'], Tone>> = {
  higher: 'good',
  lower: 'stop',
  'no-significant-difference': 'quiet',
}
const verdictSign: Readonly<Record<ScoreComparison['verdict'], string>> = {
  higher: '↑',
  lower: '↓',
  'no-significant-difference': '≈',
}

/** What the score says against an earlier one, against the ear without the device, and against the audiogram. */
export function ScoreFindings({ reading: { change, benefit, expectation } }: { reading: ScoreReading }) {
  const { speech } = useMessages()
  return (
    <ul className={styles.findings}>
      {change !== undefined && <Compared change={change} sentences={speech.change} />}
      {benefit !== undefined && <Compared change={benefit} sentences={speech.benefit} />}
      {expectation.kind === 'known' && <Expected expectation={expectation} />}
    </ul>
  )
}

interface ComparedProps {
  readonly change: ScoreChange
  readonly sentences: Readonly<Record<ScoreComparison['verdict'], (score: string, day: string) => string>>
}

function Compared({ change: { earlier, comparison }, sentences }: ComparedProps) {
  const { speech } = useMessages()
  const { verdict, borderline } = comparison
  const sentence = sentences[verdict](scoreWords(earlier, speech), calendarDayOf(earlier.performedOn))
  return (
    <li data-verdict={verdict}>
      <StateSign tone={verdictTone[verdict]} sign={verdictSign[verdict]}>
        {sentence}
      </StateSign>
      {borderline && <span className={styles.remark}> {speech.borderline}</span>}
    </li>
  )
}

const expectedTone = { 'as-expected': 'quiet', below: 'caution', above: 'quiet', 'cannot-tell': 'quiet' } as const
const expectedSign = { 'as-expected': '≈', below: '△', above: '↑', 'cannot-tell': '?' } as const

function Expected({ expectation: { against, words } }: { expectation: Extract<Expectation, { kind: 'known' }> }) {
  const { speech, measures } = useMessages()
  const sentences = words.standIn ? speech.expectedOfStandIn : speech.expected
  const reservations = [words.standIn ? speech.standIn : '', measures.statusShort[against.transfer.status]]
  return (
    <li data-expectation={against.verdict} data-stand-in={words.standIn}>
      <StateSign tone={expectedTone[against.verdict]} sign={expectedSign[against.verdict]}>
        {sentences[against.verdict](speech.transferWords[words.material], speech.percent(against.expected))}
      </StateSign>{' '}
      <span className={styles.unconfirmed}>{reservations.filter((part) => part !== '').join('; ')}</span>
    </li>
  )
}

/** Method, inputs, what is missing and where it is from. */
export function ScoreHow({ reading }: { reading: ScoreReading }) {
  const { speech, words } = useMessages()
  const { interval, change, benefit, expectation, test } = reading
  return (
    <details className={styles.how}>
      <summary>{speech.how}</summary>
      {interval === undefined ? (
        <p>{speech.noInterval}</p>
      ) : (
        <p>
          {speech.interval(interval.low, interval.high)}
          {test.material === 'sentences' && ` (${speech.sentencesRemark})`}. <SourceLine of={intervalMethods.wilson} />
        </p>
      )}
      {[change, benefit].map(
        (compared) =>
          compared !== undefined && (
            <p key={compared.earlier.id}>
              {words.labelled(
                scoreWords(compared.earlier, speech),
                speech.critical(
                  compared.comparison.range.lowest,
                  compared.comparison.range.highest,
                  compared.comparison.range.presented,
                ),
              )}{' '}
              <SourceLine of={compared.comparison.range.method} />
            </p>
          ),
      )}
      <ExpectedHow expectation={expectation} items={test.items} />
    </details>
  )
}

function ExpectedHow({ expectation, items }: { expectation: Expectation; items: number }) {
  const { speech } = useMessages()
  if (expectation.kind === 'not-known') return <p>{speech.notExpected[expectation.because]}</p>
  const { against, index, audiogram, words } = expectation
  const name = speech.transferWords[words.material]
  return (
    <p>
      {speech.expectedIndex(index.index, index.bound === 'upper-bound', calendarDayOf(audiogram.performedOn), name)}{' '}
      {speech.expectedRange(against.lowest, against.highest, items)}{' '}
      {words.standIn ? speech.expectedByStandIn : speech.expectedByName(name)} <SourceLine of={against.transfer} />{' '}
      <SourceLine of={index.treatment} />
    </p>
  )
}
