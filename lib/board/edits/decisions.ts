import type * as Y from 'yjs'
import { type RecordId, textLimits } from '../identity.ts'
import type { StepText } from '../operative-steps.ts'
import { readRecord, readTable } from '../reading.ts'
import type { Contingency, ContingencyState, NextStep, Trigger } from '../records/contingency.ts'
import type { Showing } from '../records/main-screen.ts'
import type { Citation, Note } from '../records/note.ts'
import type { OperativeStep, StepState } from '../records/operative-step.ts'
import type { RichText } from '../rich-text.ts'
import { currentStep } from '../running-record.ts'
import { rankAfterShift } from './order.ts'
import { addRecord, changeRecord, type Pen, rankAtEnd, writeSingle } from './writing.ts'

export function startNote(
  doc: Y.Doc,
  pen: Pen,
  kind: Note['kind'],
  body: RichText = [],
  cites: readonly Citation[] = [],
): RecordId {
  const rank = rankAtEnd(readTable(doc, 'notes'))
  return addRecord(doc, pen, 'notes', { kind, body, cites: [...cites], rank, ...stepNow(doc) })
}

/** The step under way: what is written meanwhile is filed under it. */
function stepNow(doc: Y.Doc): { readonly step?: RecordId } {
  const step = currentStep(readTable(doc, 'steps'))?.id
  return step === undefined ? {} : { step }
}

export function strikeNote(doc: Y.Doc, pen: Pen, id: RecordId, reason: string): void {
  changeRecord(doc, 'notes', id, { struck: { by: pen.participant, at: pen.now().toISOString(), reason } })
}

export function changeNoteKind(doc: Y.Doc, id: RecordId, kind: Note['kind']): void {
  changeRecord(doc, 'notes', id, { kind })
}

/** Adds a citation to a note; one that it has already stays single. */
export function citeInNote(doc: Y.Doc, id: RecordId, citation: Citation): void {
  const cites = readRecord(doc, 'notes', id)?.cites ?? []
  if (!cites.some((cited) => isSameCitation(cited, citation)))
    changeRecord(doc, 'notes', id, { cites: [...cites, citation] })
}

export function dropCitation(doc: Y.Doc, id: RecordId, citation: Citation): void {
  const cites = readRecord(doc, 'notes', id)?.cites ?? []
  changeRecord(doc, 'notes', id, { cites: cites.filter((cited) => !isSameCitation(cited, citation)) })
}

const isSameCitation = (a: Citation, b: Citation): boolean => a.kind === b.kind && a.id === b.id

/** Moves a note one place up or down. */
export function shiftNote(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const rank = rankAfterShift(readTable(doc, 'notes'), id, by)
  if (rank !== undefined) changeRecord(doc, 'notes', id, { rank })
}

export function addContingency(doc: Y.Doc, pen: Pen, trigger: Trigger, plan: string): RecordId {
  return addRecord(doc, pen, 'contingencies', {
    trigger,
    plan,
    state: 'watching',
    rank: rankAtEnd(readTable(doc, 'contingencies')),
    ...stepNow(doc),
  })
}

/** @param visit at which it was seen, where it was one */
export function moveContingency(
  doc: Y.Doc,
  pen: Pen,
  id: RecordId,
  state: ContingencyState,
  why: string,
  visit?: RecordId,
): void {
  const signed = { by: pen.participant, at: pen.now().toISOString(), why }
  const moved: NonNullable<Contingency['moved']> = visit === undefined ? signed : { ...signed, visit }
  changeRecord(doc, 'contingencies', id, { state, moved, acted: undefined })
}

/** What was done about a contingency that is met, and where that leads. */
export function actOnContingency(doc: Y.Doc, pen: Pen, id: RecordId, what: string, next?: NextStep): void {
  const signed = { by: pen.participant, at: pen.now().toISOString() }
  const acted = { ...signed, what, ...(next === undefined ? {} : { next }) }
  const moved = { ...signed, why: what.slice(0, textLimits.short) }
  changeRecord(doc, 'contingencies', id, { state: 'acted-on', moved, acted })
}

export function rewordContingency(doc: Y.Doc, id: RecordId, trigger: Trigger, plan: string): void {
  changeRecord(doc, 'contingencies', id, { trigger, plan })
}

/** Moves a contingency one place up or down. */
export function shiftContingency(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const rank = rankAfterShift(readTable(doc, 'contingencies'), id, by)
  if (rank !== undefined) changeRecord(doc, 'contingencies', id, { rank })
}

export function addStep(doc: Y.Doc, pen: Pen, words: StepText, needs: readonly RecordId[] = []): RecordId {
  const rank = rankAtEnd(readTable(doc, 'steps'))
  return addRecord(doc, pen, 'steps', { ...words, needs: [...needs], state: 'ahead', rank })
}

/** Moves a step to another state and notes the time at which it began or ended. */
export function moveStep(doc: Y.Doc, pen: Pen, { id, startedAt }: OperativeStep, state: StepState): void {
  const now = pen.now().toISOString()
  const times = {
    ahead: { startedAt: undefined, endedAt: undefined },
    'under-way': { startedAt: startedAt ?? now, endedAt: undefined },
    done: { startedAt: startedAt ?? now, endedAt: now },
    'left-out': { startedAt: undefined, endedAt: now },
  }[state]
  changeRecord(doc, 'steps', id, { state, ...times })
}

export function showOnMainScreen(doc: Y.Doc, pen: Pen, showing: Showing): void {
  writeSingle(doc, pen, 'mainScreen', { showing })
}
