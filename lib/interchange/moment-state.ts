import * as decoding from 'lib0/decoding'
import * as encoding from 'lib0/encoding'
import type { DocumentKind } from '../board/records.ts'

/**
 * GET /api/cases/:id/moments/:at: both documents as they were at an instant, each as the Yjs updates that make it, to be
 * applied in their order. The server hands out what its log holds and computes nothing.
 */
export type MomentState = Readonly<Record<DocumentKind, readonly Uint8Array[]>>

const documents = ['record', 'floor'] as const

/** For each document, the record first: how many updates, then each with its length before it (lib0 variable integers). */
export function encodeMomentState(state: MomentState): Uint8Array {
  const encoder = encoding.createEncoder()
  for (const document of documents) {
    encoding.writeVarUint(encoder, state[document].length)
    for (const update of state[document]) encoding.writeVarUint8Array(encoder, update)
  }
  return encoding.toUint8Array(encoder)
}

/** @throws when the bytes end early or go on: the answer is not one of ours */
export function decodeMomentState(bytes: Uint8Array): MomentState {
  const decoder = decoding.createDecoder(bytes)
  const [record, floor] = documents.map(() => readUpdates(decoder))
  if (decoding.hasContent(decoder)) throw new RangeError('a moment state holds two documents; got more')
  return { record: record ?? [], floor: floor ?? [] }
}

function readUpdates(decoder: decoding.Decoder): Uint8Array[] {
  const updates: Uint8Array[] = []
  for (let left = decoding.readVarUint(decoder); left > 0; left--) updates.push(decoding.readVarUint8Array(decoder))
  return updates
}
