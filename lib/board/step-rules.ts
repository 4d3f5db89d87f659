import { equalityDeep } from 'lib0/function'
import type { Sender } from './judge.ts'
import { type Refusal, refusal } from './refusals.ts'
import type { Change, TableView } from './rules.ts'
import type { Sealer } from './sealer.ts'
import { closesCircle, isAnswered, isBegun, openNeeds } from './step-needs.ts'

/** Rules of operative steps, their prerequisites and what hangs on them (G17). */

const finder = (tables: TableView) => (id: string) => tables.get('steps', id)

/** Prerequisites are steps of the same case, and none leads back to its own step. */
export function needsStand({ id, before, after }: Change<'steps'>, tables: TableView): Refusal | undefined {
  const needs = after?.needs ?? []
  if (equalityDeep(before?.needs ?? [], needs)) return undefined
  const missing = needs.find((need) => tables.get('steps', need) === undefined)
  if (missing !== undefined) return refusal('missing-reference', `steps/${id}`, { field: 'needs', id: missing })
  if (!closesCircle(id, needs, finder(tables))) return undefined
  return refusal('step-circle', `steps/${id}`, { title: after?.title ?? '' })
}

/** A step goes on while one that it needs is open only with an answer that somebody signed. */
export function jumpIsAnswered(
  { id, before, after }: Change<'steps'>,
  tables: TableView,
  _sealer: Sealer,
  sender: Sender,
): Refusal | undefined {
  if (after === undefined || before?.state === after.state || !isBegun(after.state)) return undefined
  const was = { id, state: before?.state ?? 'ahead' } as const
  const exceptions = [...tables.values('stepExceptions')]
  const open = openNeeds(after, finder(tables)).find(
    (need) => !isAnswered(was, need.id, exceptions, sender.participant),
  )
  return open && refusal('open-prerequisite', `steps/${id}`, { title: after.title, needs: open.title })
}

/** A step that another needs, or that somebody answered for, is left out instead of removed. */
export function stepIsFree({ id, before, after }: Change<'steps'>, tables: TableView): Refusal | undefined {
  if (before === undefined || after !== undefined) return undefined
  const inUse = refusal('step-in-use', `steps/${id}`, { title: before.title })
  for (const other of tables.values('steps')) if (other.needs?.includes(id)) return inUse
  for (const { step, need } of tables.values('stepExceptions')) if (step === id || need === id) return inUse
  return undefined
}

export function exceptionOfSteps({ id, before, after }: Change<'stepExceptions'>, tables: TableView) {
  if (before !== undefined || after === undefined) return undefined
  for (const field of ['step', 'need'] as const)
    if (tables.get('steps', after[field]) === undefined)
      return refusal('missing-reference', `stepExceptions/${id}`, { field, id: after[field] })
  return undefined
}

/**
 * What was found, decided, watched for or photographed in a step names one of this case. A step that is removed later leaves
 * it behind, and it is then of no step.
 */
export function stepOfEntry<K extends 'notes' | 'contingencies' | 'pictures'>(kind: K) {
  return ({ id, before, after }: Change<K>, tables: TableView): Refusal | undefined => {
    const step = after?.step
    if (step === undefined || step === before?.step || tables.get('steps', step) !== undefined) return undefined
    return refusal('missing-reference', `${kind}/${id}`, { field: 'step', id: step })
  }
}
