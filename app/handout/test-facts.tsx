'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import { measureText } from '@/app/screen/measure-text.ts'
import { testMeasures } from '@/app/screen/test-measures.ts'
import { useWords } from '@/app/screen/use-words.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { useNameOf } from './names.ts'
import styles from './test-facts.module.css'

/** When and how a test was made, who answers for it, and what is read off it. */
export function TestFacts({ test }: { test: HearingTest }) {
  return (
    <div className={styles.facts}>
      <Circumstances test={test} />
      <Measures test={test} />
    </div>
  )
}

function Circumstances({ test }: { test: HearingTest }) {
  const { screens, words } = useMessages()
  const { handout } = screens
  const { calendarDay, moment } = useWords()
  const nameOf = useNameOf()
  const { airTransducer, boneTransducer, device = '', note } = test
  const transducers = [
    ...(airTransducer === undefined ? [] : [handout.airTransducer[airTransducer]]),
    ...(boneTransducer === undefined ? [] : [handout.boneTransducer[boneTransducer]]),
  ]
  const entered = test.origin === 'imported' ? handout.imported : handout.entered
  return (
    <ul className={styles.lines}>
      <li className={styles.day}>{handout.testedOn(calendarDay(test.performedOn))}</li>
      {transducers.length > 0 && <li>{transducers.join(', ')}</li>}
      {device !== '' && <li>{words.labelled(handout.device, device)}</li>}
      <VerifiedBy test={test} />
      <li className={styles.quiet}>{entered(nameOf(test.author), moment(test.at))}</li>
      {note !== '' && <li className={styles.note}>{words.labelled(handout.remark, note)}</li>}
    </ul>
  )
}

function VerifiedBy({ test: { verification } }: { test: HearingTest }) {
  const { handout } = useMessages().screens
  const { moment } = useWords()
  const nameOf = useNameOf()
  return verification === undefined ? (
    <li className={styles.unverified}>
      <span aria-hidden="true">△ </span>
      {handout.notVerified}
    </li>
  ) : (
    <li>
      <span aria-hidden="true">✓ </span>
      {handout.verified(nameOf(verification.by), moment(verification.at))}
    </li>
  )
}

/** Values with the number of the convention that each follows, and the conventions below. */
function Measures({ test }: { test: HearingTest }) {
  const messages = useMessages()
  const measures = testMeasures(test).map((measure) => measureText(measure, messages))
  const conventions = [...new Set(measures.map(({ convention }) => convention))]
  return (
    <div>
      <table className={styles.measures}>
        <caption>{messages.screens.handout.measures}</caption>
        <tbody>
          {measures.map(({ name, value, convention }) => (
            <tr key={name}>
              <th scope="row">
                {name} <sup>{conventions.indexOf(convention) + 1}</sup>
              </th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ol className={styles.conventions}>
        {conventions.map((convention) => (
          <li key={convention}>{convention}</li>
        ))}
      </ol>
    </div>
  )
}
