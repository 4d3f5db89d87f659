import type { ParticipantId, RecordId } from '@/lib/board/identity.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import type { Question } from '@/lib/board/records/question.ts'
import type { StepException } from '@/lib/board/records/step-exception.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { isOpen, stepFinder } from '@/lib/board/step-needs.ts'

/** Something written while a step was under way, or filed under it. */
export interface StepEntry {
  readonly kind: Note['kind'] | 'contingency' | 'answer'
  readonly table: 'notes' | 'contingencies' | 'questions'
  readonly id: RecordId
  /** first line; empty while nothing is written */
  readonly text: string
  readonly at: string
}

/** What hangs on one step. */
export interface StepFacts {
  readonly needs: readonly { readonly id: RecordId; readonly title: string; readonly isOpen: boolean }[]
  readonly exceptions: readonly {
    readonly id: RecordId
    readonly need: string
    readonly by: ParticipantId
    readonly at: string
    readonly reason: string
  }[]
  readonly entries: readonly StepEntry[]
}

interface Tables {
  readonly steps: readonly OperativeStep[]
  readonly exceptions: readonly StepException[]
  readonly notes: readonly Note[]
  readonly contingencies: readonly Contingency[]
  readonly questions: readonly Question[]
}

/** What hangs on each step: its prerequisites, why somebody went on without one, and what was written meanwhile. */
export function factsOfSteps(tables: Tables): (step: OperativeStep) => StepFacts {
  const stepOf = stepFinder(tables.steps)
  const entries = byStep(entriesOf(tables))
  const exceptions = byStep(tables.exceptions)
  return ({ id, needs = [] }) => ({
    needs: needs.flatMap((need) => {
      const step = stepOf(need)
      return step === undefined ? [] : [{ id: need, title: step.title, isOpen: isOpen(step.state) }]
    }),
    exceptions: (exceptions.get(id) ?? [])
      .toSorted((a, b) => a.at.localeCompare(b.at))
      .map(({ id: exception, need, author, at, reason }) => ({
        id: exception,
        need: stepOf(need)?.title ?? '',
        by: author,
        at,
        reason,
      })),
    entries: (entries.get(id) ?? []).map(({ entry }) => entry).toSorted((a, b) => a.at.localeCompare(b.at)),
  })
}

function byStep<T extends { readonly step: RecordId }>(items: readonly T[]): ReadonlyMap<RecordId, readonly T[]> {
  const groups = new Map<RecordId, T[]>()
  for (const item of items) groups.set(item.step, [...(groups.get(item.step) ?? []), item])
  return groups
}

interface Filed {
  readonly step: RecordId
  readonly entry: StepEntry
}

function entriesOf({ notes, contingencies, questions }: Tables): Filed[] {
  return [
    ...notes.flatMap(({ id, kind, step, body, struck, at }) =>
      step === undefined || struck !== undefined
        ? []
        : [{ step, entry: { kind, table: 'notes', id, text: firstLine(plainText(body)), at } as const }],
    ),
    ...contingencies.flatMap(({ id, step, plan, at }) =>
      step === undefined
        ? []
        : [{ step, entry: { kind: 'contingency', table: 'contingencies', id, text: firstLine(plan), at } as const }],
    ),
    ...questions.flatMap(({ id, answer }) =>
      answer?.step === undefined
        ? []
        : [
            {
              step: answer.step,
              entry: { kind: 'answer', table: 'questions', id, text: firstLine(answer.text), at: answer.at } as const,
            },
          ],
    ),
  ]
}

const firstLine = (text: string): string => text.trim().split('\n')[0] ?? ''
