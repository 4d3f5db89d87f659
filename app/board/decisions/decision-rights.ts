import { type Contingency, ContingencyState } from '@/lib/board/records/contingency.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { Rights } from '@/lib/board/rights.ts'

/** What one person may do to one note. A struck note stays as it is. */
export interface NoteRights {
  readonly edit: boolean
  readonly cite: boolean
  readonly strike: boolean
  readonly order: boolean
}

export function noteRights(note: Note, may: Rights): NoteRights {
  const stands = note.struck === undefined
  return {
    edit: stands && may.mayChange('notes', 'body', note),
    cite: stands && may.mayChange('notes', 'cites', note),
    strike: stands && may.mayChange('notes', 'struck', note),
    order: may.mayChange('notes', 'rank', note),
  }
}

export type NoteAct = Exclude<keyof NoteRights, 'order'> | 'screen'
export const noteKeys: Readonly<Record<NoteAct, string>> = { edit: 'e', cite: 't', strike: 'x', screen: 's' }
export const noteActs = Object.keys(noteKeys) as NoteAct[]

/** What one person may do to one contingency: where it may go, and whether its words may change (while it is watched). */
export interface ContingencyRights {
  readonly moves: readonly ContingencyState[]
  readonly reword: boolean
  readonly order: boolean
}

export function contingencyRights(contingency: Contingency, may: Rights): ContingencyRights {
  return {
    moves: ContingencyState.options.filter((state) => may.mayMove('contingencies', contingency, state)),
    reword: contingency.state === 'watching' && may.mayChange('contingencies', 'trigger', contingency),
    order: may.mayChange('contingencies', 'rank', contingency),
  }
}

/** The key of each move while a contingency has the focus. */
export const moveKeys: Readonly<Record<ContingencyState, string>> = {
  watching: 'w',
  met: 'm',
  'acted-on': 'a',
  'stood-down': 'd',
}
export const contingencyKeys = { reword: 'e', screen: 's' } as const
