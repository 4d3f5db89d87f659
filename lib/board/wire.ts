import * as decoding from 'lib0/decoding'
import * as encoding from 'lib0/encoding'
import * as z from 'zod/mini'
import { ParticipantId, RecordId } from './identity.ts'
import type { Refusal } from './refusals.ts'
import { Role } from './roles.ts'

/**
 * Messages on a sync socket. The first four are those of y-protocols and y-websocket; ours begin at 40 and are sent
 * only to pages that asked for them (`own=1` in the address), so that an unmodified client hears nothing unknown.
 */
export const messageType = {
  sync: 0,
  awareness: 1,
  auth: 2,
  queryAwareness: 3,
  stored: 40,
  refused: 41,
  roster: 42,
} as const

export const syncStep = { step1: 0, step2: 1, update: 2 } as const

/** Whether a frame from a client carries content: the frames that the server counts and answers with stored or refused. */
export function carriesContent(frame: Uint8Array): boolean {
  return frame[0] === messageType.sync && (frame[1] === syncStep.step2 || frame[1] === syncStep.update)
}

/**
 * Whom an awareness message of y-protocols speaks of, and at what clocks; at most the first `most`, and none for bytes that
 * are no such message.
 */
export function spokenOf(states: Uint8Array, most = Number.POSITIVE_INFINITY): { client: number; clock: number }[] {
  try {
    const decoder = decoding.createDecoder(states)
    const spoken: { client: number; clock: number }[] = []
    for (let left = Math.min(decoding.readVarUint(decoder), most); left > 0; left--) {
      spoken.push({ client: decoding.readVarUint(decoder), clock: decoding.readVarUint(decoder) })
      const length = decoding.readVarUint(decoder)
      decoder.pos += length
    }
    return spoken
  } catch {
    return []
  }
}

/** The first `frames` content frames of this socket have been stored or refused. */
export interface Stored {
  readonly frames: number
}

/** Content frame number `frame` of this socket was refused. */
export interface Refused {
  readonly frame: number
  readonly refusal: Refusal
}

/** Who is here, once a second where it changed. Observers are a number. */
export const Roster = z.strictObject({
  people: z.array(z.strictObject({ id: ParticipantId, name: z.string(), affiliation: z.string(), role: Role })),
  observers: z.int().check(z.minimum(0)),
})
export type Roster = z.infer<typeof Roster>

/** What a participant's page publishes about itself; the server drops anything else and anybody else. */
export const Presence = z.strictObject({
  user: z.strictObject({
    id: ParticipantId,
    name: z.string().check(z.maxLength(120)),
    role: Role,
    color: z.string().check(z.maxLength(40)),
  }),
  pointer: z.nullish(
    z.strictObject({
      ear: z.enum(['right', 'left']),
      frequencyHz: z.number().check(z.minimum(90), z.maximum(20_000)),
      levelDbHl: z.number().check(z.minimum(-30), z.maximum(140)),
    }),
  ),
  /** the question that a moderator has in hand */
  handling: z.nullish(RecordId),
  typing: z.nullish(z.string().check(z.maxLength(130))),
  cursor: z.optional(z.unknown()),
})
export type Presence = z.infer<typeof Presence>

export const maxPresenceBytes = 2048

export function encodeOwn(type: 'stored' | 'refused' | 'roster', payload: Stored | Refused | Roster): Uint8Array {
  const encoder = encoding.createEncoder()
  encoding.writeVarUint(encoder, messageType[type])
  encoding.writeVarString(encoder, JSON.stringify(payload))
  return encoding.toUint8Array(encoder)
}

/** Reads the payload of one of our messages; the decoder stands just behind the type. */
export const readStored = (decoder: decoding.Decoder): Stored => JSON.parse(decoding.readVarString(decoder)) as Stored
export const readRefused = (decoder: decoding.Decoder): Refused =>
  JSON.parse(decoding.readVarString(decoder)) as Refused
export const readRoster = (decoder: decoding.Decoder): Roster =>
  Roster.parse(JSON.parse(decoding.readVarString(decoder)))

/** Reasons with which the server closes a socket; the text goes with the code. */
export const closeCode = {
  notAllowed: 4403,
  revoked: 4410,
  roleChanged: 4411,
  tooLarge: 1009,
  tooFast: 4429,
  /** a message on a socket that only tells */
  unexpected: 1008,
  notStored: 4503,
  /** the server ends; another one, or the next, takes the page in at once */
  restarting: 1012,
} as const
