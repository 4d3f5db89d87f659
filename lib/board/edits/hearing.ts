import { equalityDeep } from 'lib0/function'
import type * as Y from 'yjs'
import { Map as SharedMap } from 'yjs'
import type { DbHl } from '../../units/levels.ts'
import type { RecordId } from '../identity.ts'
import { readTable } from '../reading.ts'
import type { Annotation } from '../records/annotation.ts'
import type { HearingTest, Point, PointKey } from '../records/hearing-test.ts'
import { close, verify, type WhyClosed } from './standing.ts'
import { addRecord, addRemark, type Content, changeRecord, type Pen, recordMap, removeRecord } from './writing.ts'

export type NewTest = Omit<Content<'tests'>, 'state' | 'verification' | 'closing'>

/**
 * Enters a test as the current one of its ear and condition; a current one before it is superseded in the same edit.
 * @param reason why the earlier test no longer counts, for the record
 */
export function enterTest(doc: Y.Doc, pen: Pen, test: NewTest, reason: string): RecordId {
  const id = pen.newId()
  doc.transact(() => {
    for (const earlier of currentTests(doc, test)) closeTest(doc, pen, earlier.id, 'superseded', reason, id)
    addRecord(doc, pen, 'tests', { ...test, state: 'current' }, id)
  })
  return id
}

export function currentTests(doc: Y.Doc, { ear, condition }: Pick<HearingTest, 'ear' | 'condition'>): HearingTest[] {
  return readTable(doc, 'tests').filter(
    (test) => test.state === 'current' && test.ear === ear && test.condition === condition,
  )
}

/** Sets one point, or takes it away ("not tested"). A point that is equal is not written again. */
export function setPoint(doc: Y.Doc, test: RecordId, key: PointKey, point: Point | undefined): void {
  const points = recordMap(doc, 'tests', test).get('points')
  if (!(points instanceof SharedMap)) throw new RangeError(`test ${test} has no points`)
  if (point === undefined) points.delete(key)
  else if (!equalityDeep(points.get(key), point)) points.set(key, point)
}

/** Sets the second threshold at 1 kHz by air conduction, in dB HL, or takes it away. */
export function setRepeat(doc: Y.Doc, test: RecordId, level: DbHl | undefined): void {
  changeRecord(doc, 'tests', test, { repeatAt1000: level })
}

export function verifyTest(doc: Y.Doc, pen: Pen, test: RecordId): void {
  verify(doc, pen, 'tests', test)
}

/** Marks a test as superseded or entered in error, with the reason. */
export function closeTest(
  doc: Y.Doc,
  pen: Pen,
  test: RecordId,
  state: WhyClosed['state'],
  reason: string,
  supersededBy?: RecordId,
): void {
  close(doc, pen, 'tests', test, { state, reason, supersededBy })
}

/** Makes a superseded test current again; the one that is current now is superseded by it. */
export function reinstateTest(doc: Y.Doc, pen: Pen, test: HearingTest, reason: string): void {
  doc.transact(() => {
    for (const current of currentTests(doc, test)) closeTest(doc, pen, current.id, 'superseded', reason, test.id)
    changeRecord(doc, 'tests', test.id, { state: 'current', closing: undefined })
  })
}

export function annotate(
  doc: Y.Doc,
  pen: Pen,
  content: Pick<Annotation, 'place' | 'text'> & { test?: RecordId },
): RecordId {
  return addRemark(doc, pen, 'annotations', content)
}

/** Moves a pin or bracket, or changes its text. */
export function changeAnnotation(doc: Y.Doc, id: RecordId, patch: Partial<Pick<Annotation, 'place' | 'text'>>): void {
  changeRecord(doc, 'annotations', id, patch)
}

export function removeAnnotation(doc: Y.Doc, id: RecordId): void {
  removeRecord(doc, 'annotations', id)
}
