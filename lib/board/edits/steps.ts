import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { type Approach, type StepText, typicalSteps, type UsualStepName } from '../operative-steps.ts'
import { readRecord, readTable } from '../reading.ts'
import type { OperativeStep, StepState } from '../records/operative-step.ts'
import { begunWithout, isOpen } from '../step-needs.ts'
import { addStep, moveStep } from './decisions.ts'
import { rankAfterShift } from './order.ts'
import { addRecord, changeRecord, type Pen, removeRecord } from './writing.ts'

/** Adds the usual steps of an approach after those that stand already, each with its prerequisites, in one edit. */
export function addTypicalSteps(
  doc: Y.Doc,
  pen: Pen,
  approach: Approach,
  words: Readonly<Record<UsualStepName, StepText>>,
): readonly RecordId[] {
  const added = new Map<UsualStepName, RecordId>()
  doc.transact(() => {
    for (const { name, needs } of typicalSteps(approach)) {
      const ids = needs.flatMap((need) => added.get(need) ?? [])
      added.set(name, addStep(doc, pen, words[name], ids))
    }
  })
  return [...added.values()]
}

/** Moves a step one place up or down. */
export function shiftStep(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const rank = rankAfterShift(readTable(doc, 'steps'), id, by)
  if (rank !== undefined) changeRecord(doc, 'steps', id, { rank })
}

export function rewordStep(
  doc: Y.Doc,
  id: RecordId,
  words: Partial<Pick<OperativeStep, 'title' | 'check' | 'hazard' | 'needs'>>,
): void {
  changeRecord(doc, 'steps', id, words)
}

/** Takes a step out of the list, and out of the prerequisites of the others. */
export function removeStep(doc: Y.Doc, id: RecordId): void {
  doc.transact(() => {
    for (const { id: other, needs } of readTable(doc, 'steps'))
      if (needs?.includes(id)) changeRecord(doc, 'steps', other, { needs: needs.filter((need) => need !== id) })
    removeRecord(doc, 'steps', id)
  })
}

/** Moves a step although these prerequisites are open, and records why, in one edit. */
export function moveStepDespite(
  doc: Y.Doc,
  pen: Pen,
  step: OperativeStep,
  state: StepState,
  needs: readonly RecordId[],
  reason: string,
): void {
  doc.transact(() => {
    for (const need of needs) addRecord(doc, pen, 'stepExceptions', { step: step.id, need, reason })
    moveStep(doc, pen, step, state)
  })
}

/**
 * Moves a step that nothing has to be asked about. One that is opened again leaves what was begun after it without its
 * prerequisite: that is written down there, so that the record says how it came to be.
 * @param reopened what is written there
 */
export function moveStepOn(doc: Y.Doc, pen: Pen, step: OperativeStep, state: StepState, reopened: string): void {
  doc.transact(() => {
    if (isOpen(state) && !isOpen(step.state))
      for (const { id } of begunWithout(step.id, readTable(doc, 'steps'), readTable(doc, 'stepExceptions')))
        addRecord(doc, pen, 'stepExceptions', { step: id, need: step.id, reason: reopened })
    moveStep(doc, pen, step, state)
  })
}

/** Files a finding, a decision or a contingency under a step, or under none. */
export function fileUnderStep(
  doc: Y.Doc,
  kind: 'notes' | 'contingencies',
  id: RecordId,
  step: RecordId | undefined,
): void {
  if (readRecord(doc, kind, id)?.step !== step) changeRecord(doc, kind, id, { step })
}
