import type { ParticipantId } from './identity.ts'
import { mayAct, type Sender } from './judge.ts'
import { type KindName, kindOf, type RecordOf } from './records.ts'

interface Written {
  readonly author: ParticipantId
  readonly state?: string
}

/**
 * What a sender may do, asked before the edit is made: the table of rights alone, without the rules that need the rest
 * of the document. The guard judges every edit again.
 */
export interface Rights {
  mayCreate(kind: KindName): boolean
  mayChange<K extends KindName>(kind: K, field: keyof RecordOf<K> & string, record: Written): boolean
  mayMove(kind: KindName, record: Written, to: string): boolean
  mayRemove(kind: KindName, record: Written): boolean
  /** whether a vote takes a ballot of theirs */
  mayVote(): boolean
}

export function rightsOf(sender: Sender): Rights {
  const mayChange: Rights['mayChange'] = (kind, field, { author }) =>
    mayAct(kindOf(kind).change[field] ?? [], kind, sender, author)
  return {
    mayCreate: (kind) => kindOf(kind).create.includes(sender.role),
    mayChange,
    mayMove: (kind, record, to) =>
      mayAct(kindOf(kind).moves?.[`${record.state}>${to}`] ?? [], kind, sender, record.author) &&
      mayAct(kindOf(kind).change.state ?? [], kind, sender, record.author),
    mayRemove: (kind, { author }) => mayAct(kindOf(kind).remove, kind, sender, author),
    mayVote: () => kindOf('votes').voters?.includes(sender.role) === true,
  }
}
