import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { readTable } from '../reading.ts'
import type { SpeechTest } from '../records/speech-test.ts'
import { close, verify, type WhyClosed } from './standing.ts'
import { addRecord, type Content, changeRecord, type Pen } from './writing.ts'

export type NewSpeechTest = Omit<Content<'speechTests'>, 'state' | 'verification' | 'closing'>

/**
 * Enters a word score or a reception threshold. Current ones of an earlier day with the same setting are superseded in
 * the same edit; lists of one day stand side by side, because together they are one longer list.
 * @param reason why the earlier score no longer counts, for the record
 */
export function enterSpeechTest(doc: Y.Doc, pen: Pen, test: NewSpeechTest, reason: string): RecordId {
  const id = pen.newId()
  doc.transact(() => {
    for (const earlier of replacedBy(readTable(doc, 'speechTests'), test))
      closeSpeechTest(doc, pen, earlier.id, 'superseded', reason, id)
    addRecord(doc, pen, 'speechTests', { ...test, state: 'current' }, id)
  })
  return id
}

/** The current scores that entering `test` supersedes. */
export const replacedBy = (tests: readonly SpeechTest[], test: NewSpeechTest): readonly SpeechTest[] =>
  tests.filter(
    (earlier) => earlier.state === 'current' && isSameSetting(earlier, test) && earlier.performedOn < test.performedOn,
  )

type Setting = Pick<SpeechTest, 'ear' | 'condition' | 'material' | 'speechLevel' | 'noiseLevel' | 'receptionThreshold'>

/**
 * Whether two speech tests can be held against each other as they stand: ear, condition, material and both levels of two
 * scores; ear, condition and material of two reception thresholds.
 */
export const isSameSetting = (a: Setting, b: Setting): boolean =>
  (a.receptionThreshold === undefined) === (b.receptionThreshold === undefined) &&
  a.ear === b.ear &&
  a.condition === b.condition &&
  a.material === b.material &&
  a.speechLevel === b.speechLevel &&
  a.noiseLevel === b.noiseLevel

export function verifySpeechTest(doc: Y.Doc, pen: Pen, test: RecordId): void {
  verify(doc, pen, 'speechTests', test)
}

/** Marks a score as superseded or entered in error, with the reason. */
export function closeSpeechTest(
  doc: Y.Doc,
  pen: Pen,
  test: RecordId,
  state: WhyClosed['state'],
  reason: string,
  supersededBy?: RecordId,
): void {
  close(doc, pen, 'speechTests', test, { state, reason, supersededBy })
}

/** Makes a superseded score current again, beside whatever else is current. */
export function reinstateSpeechTest(doc: Y.Doc, test: RecordId): void {
  changeRecord(doc, 'speechTests', test, { state: 'current', closing: undefined })
}
