import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { type Approach, typicalSteps } from '../operative-steps.ts'
import { readTable } from '../reading.ts'
import type { OperativeStep } from '../records/operative-step.ts'
import { addStep } from './decisions.ts'
import { rankAfterShift } from './order.ts'
import { changeRecord, type Pen } from './writing.ts'

/** Adds the usual steps of an approach after those that stand already, in one edit. */
export function addTypicalSteps(doc: Y.Doc, pen: Pen, approach: Approach): readonly RecordId[] {
  const added: RecordId[] = []
  doc.transact(() => {
    for (const step of typicalSteps(approach)) added.push(addStep(doc, pen, step))
  })
  return added
}

/** Moves a step one place up or down. */
export function shiftStep(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const rank = rankAfterShift(readTable(doc, 'steps'), id, by)
  if (rank !== undefined) changeRecord(doc, 'steps', id, { rank })
}

export function rewordStep(
  doc: Y.Doc,
  id: RecordId,
  words: Partial<Pick<OperativeStep, 'title' | 'check' | 'hazard'>>,
): void {
  changeRecord(doc, 'steps', id, words)
}
