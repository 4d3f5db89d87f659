import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { changeRecord, putRecord } from '../../lib/board/edits/writing.ts'
import type { OperativeStep } from '../../lib/board/records/operative-step.ts'
import type { Question } from '../../lib/board/records/question.ts'
import { type DocumentKind, type KindName, kindOf, type RecordOf } from '../../lib/board/records.ts'
import { marksOf } from '../../lib/board/session-marks.ts'
import type { UpdateEntry } from '../store/store.ts'
import type { DemoPerson } from './demo-case.ts'

/** A record as it stands at the end of the invented story, and who wrote it. */
export interface WrittenRecord {
  readonly kind: KindName
  readonly by: DemoPerson
  readonly record: RecordOf<KindName>
}

interface Stage extends WrittenRecord {
  readonly at: string
  readonly before?: RecordOf<KindName>
}

/** The log that would have been written had the story happened: every record in its states, in order of time. */
export function demoLog(caseId: string, written: readonly WrittenRecord[]): UpdateEntry[] {
  const stages = written.flatMap(stagesOf).sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0))
  const desks = { record: new Desk(), floor: new Desk() } as const satisfies Record<DocumentKind, Desk>
  return stages.map((stage) => {
    const { document } = kindOf(stage.kind)
    const { update, clients } = desks[document].write(stage)
    const { kind, by, record: after, at, before } = stage
    const marks = marksOf({ kind, id: after.id, before, after })
    return { document: documentName(document, caseId), update, author: by.id, role: by.role, at, clients, marks }
  })
}

/** The states that a record went through, each at its own time: what the record itself tells of them. */
function stagesOf({ kind, by, record }: WrittenRecord): Stage[] {
  const states =
    kind === 'steps'
      ? stepStates(record as OperativeStep)
      : kind === 'questions'
        ? questionStates(record as Question)
        : []
  const stages: Stage[] = []
  for (const { at, state } of [...states, { at: changedAt(kind, record), state: record }]) {
    const before = stages.at(-1)?.record
    stages.push({ kind, by, record: state, at, ...(before === undefined ? {} : { before }) })
  }
  return stages
}

interface State<R> {
  readonly at: string
  readonly state: R
}

function stepStates({ startedAt, endedAt, ...step }: OperativeStep): State<OperativeStep>[] {
  if (startedAt === undefined) return []
  const ahead = { at: step.at, state: { ...step, state: 'ahead' } as const }
  return endedAt === undefined ? [ahead] : [ahead, { at: startedAt, state: { ...step, startedAt, state: 'under-way' } }]
}

function questionStates({ movedAt, movedBy, answer, deferredTo, ...question }: Question): State<Question>[] {
  return movedAt === undefined ? [] : [{ at: question.at, state: { ...question, state: 'raised' } }]
}

/** When a record came to be as it is at the end. */
function changedAt(kind: KindName, record: RecordOf<KindName>): string {
  if (kind === 'steps') return (record as OperativeStep).endedAt ?? (record as OperativeStep).startedAt ?? record.at
  if (kind === 'questions') return (record as Question).movedAt ?? record.at
  return record.at
}

/** One document with a copy for each of its authors, kept in step, so that the log says of every record who wrote it. */
class Desk {
  private readonly copies = new Map<string, Y.Doc>()
  private readonly log: Uint8Array[] = []

  write({ kind, by, record, before }: Stage): { update: Uint8Array; clients: number[] } {
    const known = this.copies.get(by.id)
    const copy = known ?? this.newCopy(by)
    const had = Y.encodeStateVector(copy)
    if (before === undefined) putRecord(copy, kind, record)
    else changeRecord(copy, kind, record.id, record)
    const update = Y.encodeStateAsUpdate(copy, had)
    this.log.push(update)
    for (const other of this.copies.values()) if (other !== copy) Y.applyUpdate(other, update)
    return { update, clients: known === undefined ? [copy.clientID] : [] }
  }

  private newCopy({ id }: DemoPerson): Y.Doc {
    const copy = new Y.Doc()
    for (const update of this.log) Y.applyUpdate(copy, update)
    this.copies.set(id, copy)
    return copy
  }
}
