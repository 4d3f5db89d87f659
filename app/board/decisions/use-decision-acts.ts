'use client'

import { type KeyboardEvent, useState } from 'react'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { ContingencyTask } from './contingency-card.tsx'
import { contingencyKeys, contingencyRights, moveKeys, noteActs, noteKeys, noteRights } from './decision-rights.ts'
import type { DecisionsDesk } from './decisions-desk.ts'
import type { NoteTask } from './note-card.tsx'

type Task = { readonly id: RecordId } & (
  | { readonly of: 'note'; readonly task: NoteTask }
  | { readonly of: 'contingency'; readonly task: ContingencyTask }
)

/** What one person does to notes and contingencies: on the main screen at once, else by opening the form for it. */
export function useDecisionActs({ acts, may }: DecisionsDesk) {
  const [task, setTask] = useState<Task>()
  const toggle = (next: Task) => setTask(task?.id === next.id && task.task === next.task ? undefined : next)
  const hasScreen = acts.screen !== undefined

  const actOnNote = ({ id }: Note, act: NoteTask | 'screen') => {
    if (act === 'screen') acts.screen?.('note', id)
    else toggle({ of: 'note', id, task: act })
  }
  const actOnContingency = ({ id }: Contingency, act: ContingencyTask | 'screen') => {
    if (act === 'screen') acts.screen?.('contingency', id)
    else toggle({ of: 'contingency', id, task: act })
  }

  /** True when the key belongs to an act that this person may do to the note as it stands. */
  const onNoteKey = (note: Note, event: KeyboardEvent): boolean => {
    const rights = noteRights(note, may)
    const by = shiftOf(event)
    if (by !== undefined && rights.order) {
      acts.shiftNote(note.id, by)
      return true
    }
    if (!isPlain(event)) return false
    const act = noteActs.find((name) => noteKeys[name] === event.key && (name === 'screen' ? hasScreen : rights[name]))
    if (act !== undefined) actOnNote(note, act)
    return act !== undefined
  }
  const onContingencyKey = (contingency: Contingency, event: KeyboardEvent): boolean => {
    const rights = contingencyRights(contingency, may)
    const by = shiftOf(event)
    if (by !== undefined && rights.order) {
      acts.shiftContingency(contingency.id, by)
      return true
    }
    if (!isPlain(event)) return false
    const act =
      rights.moves.find((state) => moveKeys[state] === event.key) ??
      (event.key === contingencyKeys.reword && rights.reword ? 'reword' : undefined) ??
      (event.key === contingencyKeys.screen && hasScreen ? 'screen' : undefined)
    if (act !== undefined) actOnContingency(contingency, act)
    return act !== undefined
  }

  return {
    actOnNote,
    actOnContingency,
    onNoteKey,
    onContingencyKey,
    write: (note: RecordId) => setTask({ of: 'note', id: note, task: 'edit' }),
    noteTask: (id: RecordId) => (task?.of === 'note' && task.id === id ? task.task : undefined),
    contingencyTask: (id: RecordId) => (task?.of === 'contingency' && task.id === id ? task.task : undefined),
    endTask: () => setTask(undefined),
  }
}

const isPlain = ({ altKey, ctrlKey, metaKey }: KeyboardEvent): boolean => !altKey && !ctrlKey && !metaKey

function shiftOf({ key, altKey }: KeyboardEvent): -1 | 1 | undefined {
  if (!altKey) return undefined
  return key === 'ArrowUp' ? -1 : key === 'ArrowDown' ? 1 : undefined
}
