import { dayOf } from '@/app/board/hearing/test-facts.ts'
import { Button } from '@/app/components/button.tsx'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-speech.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import type { ParticipantId } from '@/lib/board/identity.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { Rights } from '@/lib/board/rights.ts'
import { speechTestCode } from '@/lib/interchange/record-code.ts'
import { ReceptionFinding, ReceptionHow } from './reception-facts.tsx'
import type { ReceptionReading } from './reception-reading.ts'
import { ScoreFindings, ScoreHow } from './score-facts.tsx'
import type { ScoreReading } from './score-reading.ts'
import { ScoreStrip } from './score-strip.tsx'
import styles from './speech-list.module.css'
import { levelWords, materialWords } from './speech-words.ts'

export type SpeechAct = 'verify' | 'supersede' | 'error' | 'reinstate'

export type SpeechReading = ScoreReading | ReceptionReading

interface SpeechListProps {
  readonly readings: readonly SpeechReading[]
  readonly may: Rights
  readonly nameOf: (participant: ParticipantId) => string
  readonly onAct: (act: SpeechAct, test: SpeechTest) => void
}

/** All speech tests: scores with their interval, thresholds with the tones they go with;, state, verification and record code. */
export function SpeechList({ readings, may, nameOf, onAct }: SpeechListProps) {
  return (
    <ul className={styles.list}>
      {readings.map((reading) => (
        <li
          key={reading.test.id}
          className={styles.test}
          data-speech-test={reading.test.id}
          data-state={reading.test.state}
          data-ear={reading.test.ear}
        >
          {reading.kind === 'score' ? <ScoreLine reading={reading} /> : <ReceptionLine reading={reading} />}
          {reading.kind === 'score' ? <ScoreFindings reading={reading} /> : <ReceptionFinding reading={reading} />}
          <RecordFacts test={reading.test} nameOf={nameOf} />
          {reading.kind === 'score' ? <ScoreHow reading={reading} /> : <ReceptionHow reading={reading} />}
          <Acts test={reading.test} may={may} onAct={onAct} />
        </li>
      ))}
    </ul>
  )
}

function ScoreLine({ reading: { test, interval } }: { reading: ScoreReading }) {
  const { speech } = useMessages()
  return (
    <div className={styles.line}>
      <TestWhat test={test} level={levelWords(test, speech)} />
      <span className={styles.score}>
        <b className={styles.percent}>{speech.percent(test.right / test.items)}</b>
        <span className={styles.second}>{speech.score(test.right, test.items)}</span>
      </span>
      <span className={styles.interval}>
        {interval !== undefined && (
          <ScoreStrip proportion={interval.proportion} low={interval.low} high={interval.high} />
        )}
        <span className={styles.second}>
          {interval === undefined ? speech.noInterval : speech.interval(interval.low, interval.high)}
        </span>
      </span>
    </div>
  )
}

function ReceptionLine({ reading: { test } }: { reading: ReceptionReading }) {
  const { speech } = useMessages()
  return (
    <div className={styles.line}>
      <TestWhat test={test} level={speech.reception} />
      <span className={styles.score}>
        <b className={styles.percent}>{speech.receptionValue(test.receptionThreshold)}</b>
      </span>
    </div>
  )
}

/** Which ear, how, with what and when. */
function TestWhat({ test, level }: { test: SpeechTest; level: string }) {
  const { speech, words } = useMessages()
  return (
    <span className={styles.what}>
      {test.ear === 'both' ? speech.fields.ears.both : <EarSign ear={test.ear} />},{' '}
      {words.condition[test.condition].toLowerCase()}
      <span className={styles.second}>
        {level}; {materialWords(test, speech)}; {calendarDayOf(test.performedOn)}
      </span>
    </span>
  )
}

function RecordFacts({ test, nameOf }: { test: SpeechTest; nameOf: SpeechListProps['nameOf'] }) {
  const { speech, words, audiogram } = useMessages()
  const { verification, closing, state } = test
  return (
    <div className={styles.facts}>
      <StateSign tone={state === 'entered-in-error' ? 'error' : state}>{words.testState[state]}</StateSign>
      <span>
        {verification === undefined
          ? speech.state.notVerified
          : speech.state.verified(nameOf(verification.by), dayOf(verification.at))}
      </span>
      <span>
        {audiogram.code} <code>{speechTestCode(test)}</code>
      </span>
      <span>{speech.enteredBy(nameOf(test.author), dayOf(test.at))}</span>
      {test.note !== '' && <span className={styles.note}>{test.note}</span>}
      {closing !== undefined && (
        <span className={styles.note}>{speech.closed(nameOf(closing.by), dayOf(closing.at), closing.reason)}</span>
      )}
    </div>
  )
}

function Acts({ test, may, onAct }: { test: SpeechTest } & Pick<SpeechListProps, 'may' | 'onAct'>) {
  const { speech } = useMessages()
  const acts = speechActsFor(test, may)
  if (acts.length === 0) return null
  return (
    <div className={styles.acts}>
      {acts.map((act) => (
        <Button key={act} tone="quiet" onClick={() => onAct(act, test)}>
          {speech.acts[act]}
        </Button>
      ))}
    </div>
  )
}

/** The acts that the state of the test and the table of rights leave open. */
export function speechActsFor(test: SpeechTest, may: Rights): SpeechAct[] {
  const verifiable = test.state === 'current' && test.verification === undefined
  return [
    ...(verifiable && may.mayChange('speechTests', 'verification', test) ? (['verify'] as const) : []),
    ...(may.mayMove('speechTests', test, 'superseded') ? (['supersede'] as const) : []),
    ...(may.mayMove('speechTests', test, 'current') ? (['reinstate'] as const) : []),
    ...(may.mayMove('speechTests', test, 'entered-in-error') ? (['error'] as const) : []),
  ]
}
