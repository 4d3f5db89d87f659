import { equalityDeep } from 'lib0/function'
import type * as Y from 'yjs'
import { Map as SharedMap } from 'yjs'
import { onlyId, type RecordId } from '../identity.ts'
import { readRecord, readTable } from '../reading.ts'
import type { Complication, ComplicationKind, Visit } from '../records/visit.ts'
import type { VisitItem } from '../records/visit-item.ts'
import type { PlannedVisit } from '../visit-plan.ts'
import { answerQuestion } from './floor.ts'
import { addRecord, changeRecord, type Pen, recordMap, writeSingle } from './writing.ts'

const blank = { findings: '', note: '', complications: {} } as const

/**
 * Plans these visits: one that stands and is still to be held gets the new day, one that is missing is added. A visit
 * that was held, missed or called off stays as it is.
 */
export function planVisits(doc: Y.Doc, pen: Pen, planned: readonly PlannedVisit[]): void {
  doc.transact(() => {
    const standing = readTable(doc, 'visits')
    for (const visit of planned) {
      const same = standing.filter(({ occasion, year }) => occasion === visit.occasion && year === visit.year)
      if (same.length === 0) addVisit(doc, pen, visit)
      for (const { id, state } of same)
        if (state === 'planned') changeRecord(doc, 'visits', id, { plannedOn: visit.plannedOn })
    }
  })
}

export const addVisit = (doc: Y.Doc, pen: Pen, visit: PlannedVisit): RecordId =>
  addRecord(doc, pen, 'visits', { ...visit, ...blank, state: 'planned' })

/** An unscheduled visit is written down when it is held. */
export const addUnscheduled = (doc: Y.Doc, pen: Pen, on: string): RecordId =>
  addRecord(doc, pen, 'visits', { ...blank, occasion: 'unscheduled', state: 'held', held: signedDay(pen, on) })

/** Writes down on which day a visit was held, or corrects that day. */
export function holdVisit(doc: Y.Doc, pen: Pen, id: RecordId, on: string): void {
  changeRecord(doc, 'visits', id, { state: 'held', held: signedDay(pen, on) })
}

/** Puts a visit back among the planned ones, or says that it was missed or is called off. */
export function moveVisit(doc: Y.Doc, id: RecordId, state: Exclude<Visit['state'], 'held'>): void {
  changeRecord(doc, 'visits', id, { state, held: undefined })
}

const signedDay = (pen: Pen, on: string) => ({ by: pen.participant, at: pen.now().toISOString(), on })

type VisitPatch = Partial<Pick<Visit, 'plannedOn' | 'settings' | 'findings' | 'note' | 'complicationsSought'>>

export function changeVisit(doc: Y.Doc, id: RecordId, patch: VisitPatch): void {
  changeRecord(doc, 'visits', id, patch)
}

/** Notes one complication, or takes it away; one that is equal is not written again. */
export function setComplication(
  doc: Y.Doc,
  visit: RecordId,
  kind: ComplicationKind,
  complication: Complication | undefined,
): void {
  const complications = recordMap(doc, 'visits', visit).get('complications')
  if (!(complications instanceof SharedMap)) throw new RangeError(`visit ${visit} has no list of complications`)
  if (complication === undefined) complications.delete(kind)
  else if (!equalityDeep(complications.get(kind), complication)) complications.set(kind, complication)
}

/** Files a test with a visit, or takes it out again. */
export function fileTest(doc: Y.Doc, kind: 'tests' | 'speechTests', test: RecordId, visit: RecordId | undefined): void {
  changeRecord(doc, kind, test, { visit })
}

type NewItem = Pick<VisitItem, 'visit' | 'words' | 'wanted' | 'question'>

export const addVisitItem = (doc: Y.Doc, pen: Pen, item: NewItem): RecordId =>
  addRecord(doc, pen, 'visitItems', { ...item, state: 'open' })

/** What came of an item. */
export function closeItem(doc: Y.Doc, pen: Pen, id: RecordId, outcome: string): void {
  changeRecord(doc, 'visitItems', id, {
    state: 'done',
    done: { by: pen.participant, at: pen.now().toISOString(), outcome },
  })
}

export function moveItem(doc: Y.Doc, id: RecordId, state: Exclude<VisitItem['state'], 'done'>): void {
  changeRecord(doc, 'visitItems', id, { state, done: undefined })
}

/** Closes an item with its outcome, and answers with the same words the question that waited for it. */
export function answerFromVisit(record: Y.Doc, floor: Y.Doc, pen: Pen, item: VisitItem, outcome: string): void {
  closeItem(record, pen, item.id, outcome)
  const question = item.question === undefined ? undefined : readRecord(floor, 'questions', item.question)
  if (question?.state === 'deferred') answerQuestion(floor, pen, question.id, { text: outcome })
}

/** Names the day of the operation, or takes it back; nothing where the case is not described yet. */
export function setOperationDay(doc: Y.Doc, pen: Pen, operatedOn: string | undefined): void {
  const header = readRecord(doc, 'header', onlyId)
  if (header === undefined) return
  const { id: _id, author: _author, at: _at, operatedOn: _before, ...content } = header
  writeSingle(doc, pen, 'header', operatedOn === undefined ? content : { ...content, operatedOn })
}
