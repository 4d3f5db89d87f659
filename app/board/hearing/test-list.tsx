import { memo } from 'react'
import { TestLine } from '@/app/audiogram/test-line.tsx'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { ParticipantId, RecordId } from '@/lib/board/identity.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Rights } from '@/lib/board/rights.ts'
import { recordCode } from '@/lib/interchange/record-code.ts'
import { dayOf, inWords } from './test-facts.ts'
import styles from './test-list.module.css'
import { testOrder } from './tests-shown.ts'

/** What can be done with a test that asks for more than a press. */
export type TestAct = 'verify' | 'supersede' | 'error' | 'reinstate'

interface TestListProps {
  readonly tests: readonly HearingTest[]
  readonly shown: ReadonlySet<RecordId>
  readonly may: Rights
  readonly nameOf: (participant: ParticipantId) => string
  readonly onShow: (test: HearingTest) => void
  readonly onAct: (act: TestAct, test: HearingTest) => void
}

/** All hearing tests of the case with their state, verification and record code. */
export function TestList({ tests, shown, may, nameOf, onShow, onAct }: TestListProps) {
  const { hearing } = useMessages()
  if (tests.length === 0) return <p>{hearing.test.none}</p>
  return (
    <ul className={styles.list}>
      {[...tests].sort(testOrder).map((test) => (
        <TestRow
          key={test.id}
          test={test}
          shown={shown.has(test.id)}
          may={may}
          nameOf={nameOf}
          onShow={onShow}
          onAct={onAct}
        />
      ))}
    </ul>
  )
}

interface TestRowProps extends Omit<TestListProps, 'tests' | 'shown'> {
  readonly test: HearingTest
  readonly shown: boolean
}

/** Drawn again only when its own test changed: the record code of each is worth some hashing. */
const TestRow = memo(function TestRow({ test, shown, may, nameOf, onShow, onAct }: TestRowProps) {
  return (
    <li className={styles.test} data-test={test.id} data-state={test.state}>
      <ShowButton test={test} shown={shown} nameOf={nameOf} onShow={onShow} />
      <TestDetails test={test} nameOf={nameOf} />
      <TestActs test={test} may={may} onAct={onAct} />
    </li>
  )
})

interface ShowButtonProps extends Pick<TestListProps, 'nameOf' | 'onShow'> {
  readonly test: HearingTest
  readonly shown: boolean
}

function ShowButton({ test, shown, nameOf, onShow }: ShowButtonProps) {
  return (
    <button type="button" className={styles.show} aria-pressed={shown} data-ear={test.ear} onClick={() => onShow(test)}>
      <TestLine test={inWords(test, nameOf)} code={recordCode(test)} />
    </button>
  )
}

function TestDetails({ test, nameOf }: { test: HearingTest; nameOf: TestListProps['nameOf'] }) {
  const { hearing } = useMessages()
  const { closing, origin, device, note } = test
  const entered = origin === 'imported' ? hearing.test.imported : hearing.test.entered
  return (
    <div className={styles.details}>
      <span>{entered(nameOf(test.author), dayOf(test.at))}</span>
      {device !== undefined && <span>{hearing.test.device(device)}</span>}
      {note !== '' && <span className={styles.note}>{hearing.test.note(note)}</span>}
      {closing !== undefined && (
        <span className={styles.note}>
          {hearing.test.closed(nameOf(closing.by), dayOf(closing.at), closing.reason)}
        </span>
      )}
    </div>
  )
}

function TestActs({ test, may, onAct }: { test: HearingTest } & Pick<TestListProps, 'may' | 'onAct'>) {
  const { hearing } = useMessages()
  const acts = actsFor(test, may)
  if (acts.length === 0) return null
  return (
    <div className={styles.acts}>
      {acts.map((act) => (
        <Button key={act} tone="quiet" onClick={() => onAct(act, test)}>
          {hearing.test[act]}
        </Button>
      ))}
    </div>
  )
}

/** The acts that the test's state and the table of rights leave open. */
export function actsFor(test: HearingTest, may: Rights): TestAct[] {
  const verifiable = test.state === 'current' && test.verification === undefined
  return [
    ...(verifiable && may.mayChange('tests', 'verification', test) ? (['verify'] as const) : []),
    ...(may.mayMove('tests', test, 'superseded') ? (['supersede'] as const) : []),
    ...(may.mayMove('tests', test, 'current') ? (['reinstate'] as const) : []),
    ...(may.mayMove('tests', test, 'entered-in-error') ? (['error'] as const) : []),
  ]
}
