import { equalityDeep } from 'lib0/function'
import { closedCaseStays } from './closed-case.ts'
import type { ParticipantId } from './identity.ts'
import { onlyId } from './identity.ts'
import type { RawRecord } from './layout.ts'
import { mostDelayMs } from './records/video-delay.ts'
import { type KindName, kindOf, type RecordKind, type RecordOf } from './records.ts'
import { type Refusal, refusal } from './refusals.ts'
import type { Hand, Role } from './roles.ts'
import { type Change, rules, type TableView } from './rules.ts'
import type { Sealer } from './sealer.ts'

/** Who sends an edit, as the server knows it. */
export interface Sender {
  readonly participant: ParticipantId
  readonly role: Role
}

/** How far a record's time may lie ahead of the server's clock: two clocks that were set by hand. */
export const aheadMs = 2 * 60_000
/** The same for the moment that was looked at, which pages tell by the server's clock: the error of its estimate. */
export const pictureAheadMs = 2000
/** How much of a schema's complaint is passed on: it may quote all that was sent. */
const problemLength = 300
/** How long an edit may have waited on a device that was offline. */
export const offlineMs = 14 * 24 * 3_600_000

export type Parsed =
  | { readonly ok: true; readonly record: RecordOf<KindName> }
  | { readonly ok: false; readonly refused: Refusal }

/** Parses a raw record by its kind's schema, and holds its `id` against the place where it stands. */
export function parseRecord(kind: KindName, id: string, raw: RawRecord): Parsed {
  const path = `${kind}/${id}`
  const result = kindOf(kind).schema.safeParse(raw)
  if (!result.success) {
    const issue = result.error.issues[0]
    const at = issue === undefined || issue.path.length === 0 ? kind : issue.path.join('.')
    return {
      ok: false,
      refused: refusal('invalid-record', path, {
        path: at,
        problem: issue?.message.slice(0, problemLength) ?? 'not a record of this kind',
      }),
    }
  }
  const record = result.data as RecordOf<KindName>
  const place = kindOf(kind).single ? onlyId : id
  if (record.id !== id || id !== place)
    return { ok: false, refused: refusal('invalid-record', path, { path: 'id', problem: `has to be ${place}` }) }
  return { ok: true, record }
}

/**
 * Whether a sender may make this change, given the table of rights and the rules.
 * @param nowMs the server's clock, milliseconds since 1970
 * @param sealer computes again what is sealed
 * @returns the reason against it, or undefined when it may stand
 */
export function judge(
  change: Change,
  sender: Sender,
  nowMs: number,
  tables: TableView,
  sealer: Sealer,
): Refusal | undefined {
  if (kindOf(change.kind).sealed && change.before !== undefined) return judgeSealed(change)
  return judgeRights(change, sender, nowMs, tables) ?? judgeRules(change, sender, tables, sealer)
}

/** What was sealed stays as it is; an edit that changes nothing of it may pass. */
function judgeSealed({ kind, id, before, after }: Change): Refusal | undefined {
  if (after !== undefined && changedFields(before as RawRecord, after as RawRecord).length === 0) return undefined
  return refusal('sealed-record', `${kind}/${id}`, { kind, at: (before as Stamped).at })
}

function judgeRights(change: Change, sender: Sender, nowMs: number, tables: TableView): Refusal | undefined {
  if (change.before === undefined)
    return change.after === undefined ? undefined : judgeCreation(change, sender, nowMs, tables)
  if (change.after === undefined) return judgeRemoval(change, sender)
  const refused = judgeEdit(change, sender, nowMs)
  return refused?.code === 'fixed-field' && mayReplace(change, sender)
    ? judgeCreation(change, sender, nowMs, tables)
    : refused
}

/**
 * Taken away and made again while the link was down (a backing) arrives as one change. Only where nothing of a record can
 * change anyway: elsewhere it would be a way around the rights of its fields and the rules of its removal.
 */
const mayReplace = (change: Change, sender: Sender): boolean =>
  Object.keys(kindOf(change.kind).change).length === 0 && judgeRemoval(change, sender) === undefined

function judgeCreation(
  { kind, id, after }: Change,
  sender: Sender,
  nowMs: number,
  tables: TableView,
): Refusal | undefined {
  const rights = kindOf(kind)
  const path = `${kind}/${id}`
  if (rights.byServer === true || !rights.create.includes(sender.role))
    return refusal('not-permitted', path, { role: sender.role, action: 'create', kind })
  if (tables.count(kind) > rights.most) return refusal('too-many', path, { kind, most: rights.most })
  const state = stateOf(after)
  if (rights.born !== undefined && state !== undefined && !rights.born.includes(state))
    return refusal('no-such-move', path, { kind, from: 'new', to: state })
  return (
    judgeStamp(kind, path, after as Stamped, sender, nowMs) ??
    judgePicture(path, after as Stamped, nowMs) ??
    judgeSignatures(kind, path, Object.keys(after as RawRecord), after as RawRecord, sender, nowMs)
  )
}

function judgeRemoval({ kind, id, before }: Change, sender: Sender): Refusal | undefined {
  const { remove } = kindOf(kind)
  if (mayAct(remove, kind, sender, (before as Stamped).author)) return undefined
  return refusal('not-permitted', `${kind}/${id}`, { role: sender.role, action: 'remove', kind })
}

function judgeEdit({ kind, id, before, after }: Change, sender: Sender, nowMs: number): Refusal | undefined {
  const rights = kindOf(kind)
  const path = `${kind}/${id}`
  const fields = changedFields(before as RawRecord, after as RawRecord)
  for (const field of fields) {
    if (rights.single && isStampField(field)) continue
    const hands = rights.change[field]
    if (hands === undefined) return refusal('fixed-field', path, { kind, field })
    if (!mayAct(hands, kind, sender, (before as Stamped).author))
      return hands.every((hand) => hand === 'author')
        ? refusal('not-yours', path, { kind })
        : refusal('not-permitted', path, { role: sender.role, action: 'change', kind, field })
  }
  return (
    judgeMove(rights, path, kind, before as RawRecord, after as RawRecord, sender) ??
    (rights.single && fields.length > 0 ? judgeRestamp(kind, path, after as Stamped, sender, nowMs) : undefined) ??
    judgeSignatures(kind, path, fields, after as RawRecord, sender, nowMs)
  )
}

const isStampField = (field: string): boolean => field === 'author' || field === 'at'

/** A record that there is one of carries its last editor, who needs the right to make it. */
function judgeRestamp(
  kind: KindName,
  path: string,
  record: Stamped,
  sender: Sender,
  nowMs: number,
): Refusal | undefined {
  if (!kindOf(kind).create.includes(sender.role))
    return refusal('not-permitted', path, { role: sender.role, action: 'change', kind })
  return judgeStamp(kind, path, record, sender, nowMs)
}

/** Who verified, closed, answered, struck or consented signs with their own name, now. */
function judgeSignatures(
  kind: KindName,
  path: string,
  fields: readonly string[],
  record: RawRecord,
  sender: Sender,
  nowMs: number,
): Refusal | undefined {
  for (const field of kindOf(kind).signed ?? []) {
    const signature = record[field] as { by: ParticipantId; at: string } | undefined
    if (!fields.includes(field) || signature === undefined) continue
    if (signature.by !== sender.participant) return refusal('wrong-author', path, { kind })
    if (!isPossible(signature.at, nowMs)) return refusal('wrong-time', path, { at: signature.at })
  }
  for (const field of kindOf(kind).named ?? [])
    if (fields.includes(field) && record[field] !== undefined && record[field] !== sender.participant)
      return refusal('wrong-author', path, { kind })
  return undefined
}

function judgeMove(
  rights: RecordKind,
  path: string,
  kind: KindName,
  before: RawRecord,
  after: RawRecord,
  sender: Sender,
): Refusal | undefined {
  const from = stateOf(before)
  const to = stateOf(after)
  if (rights.moves === undefined || from === undefined || to === undefined || from === to) return undefined
  const hands = rights.moves[`${from}>${to}`]
  if (hands === undefined) return refusal('no-such-move', path, { kind, from, to })
  if (!mayAct(hands, kind, sender, (before as unknown as Stamped).author))
    return refusal('not-permitted', path, { role: sender.role, action: 'change', kind, field: 'state' })
  return undefined
}

function judgeStamp(kind: KindName, path: string, record: Stamped, sender: Sender, nowMs: number): Refusal | undefined {
  if (record.author !== sender.participant) return refusal('wrong-author', path, { kind })
  return isPossible(record.at, nowMs) ? undefined : refusal('wrong-time', path, { at: record.at })
}

/** What somebody was looking at lies behind the time of writing by no more than a video link takes, and not ahead of now. */
function judgePicture(path: string, { at, pictureAt }: Stamped, nowMs: number): Refusal | undefined {
  if (pictureAt === undefined) return undefined
  const behindMs = Date.parse(at) - Date.parse(pictureAt)
  if (behindMs >= 0 && behindMs <= mostDelayMs && Date.parse(pictureAt) <= nowMs + pictureAheadMs) return undefined
  return refusal('wrong-picture-time', path, { pictureAt, at })
}

const isPossible = (moment: string, nowMs: number): boolean => {
  const ms = Date.parse(moment)
  return ms <= nowMs + aheadMs && ms >= nowMs - offlineMs
}

/** Whether any of these hands is the sender's. The author needs a role that may create such records at all. */
export function mayAct(hands: readonly Hand[], kind: KindName, sender: Sender, author: ParticipantId): boolean {
  if (hands.includes(sender.role)) return true
  return hands.includes('author') && author === sender.participant && kindOf(kind).create.includes(sender.role)
}

function judgeRules<K extends KindName>(
  change: Change<K>,
  sender: Sender,
  tables: TableView,
  sealer: Sealer,
): Refusal | undefined {
  const closed = closedCaseStays(change, tables)
  if (closed !== undefined) return closed
  for (const rule of rules[change.kind] ?? []) {
    const refused = rule(change, tables, sealer, sender)
    if (refused !== undefined) return refused
  }
  return undefined
}

interface Stamped {
  readonly author: ParticipantId
  readonly at: string
  readonly pictureAt?: string
}

export function changedFields(before: RawRecord, after: RawRecord): string[] {
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].filter(
    (field) => !equalityDeep(before[field], after[field]),
  )
}

function stateOf(record: unknown): string | undefined {
  const state = (record as { state?: unknown } | undefined)?.state
  return typeof state === 'string' ? state : undefined
}
