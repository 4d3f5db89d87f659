import * as decoding from 'lib0/decoding'
import * as encoding from 'lib0/encoding'
import { messageType, syncStep } from '../../lib/board/wire.ts'

/** A frame from a client, read as far as its kind. */
export type ClientFrame =
  | { readonly kind: 'state-vector'; readonly stateVector: Uint8Array }
  | { readonly kind: 'content'; readonly update: Uint8Array }
  | { readonly kind: 'presence'; readonly states: Uint8Array }
  | { readonly kind: 'presence-query' }
  | { readonly kind: 'unreadable' }

export function readFrame(frame: Uint8Array): ClientFrame {
  try {
    const decoder = decoding.createDecoder(frame)
    switch (decoding.readVarUint(decoder)) {
      case messageType.sync:
        return readSyncFrame(decoder)
      case messageType.awareness:
        return { kind: 'presence', states: decoding.readVarUint8Array(decoder) }
      case messageType.queryAwareness:
        return { kind: 'presence-query' }
      default:
        return { kind: 'unreadable' }
    }
  } catch {
    return { kind: 'unreadable' }
  }
}

function readSyncFrame(decoder: decoding.Decoder): ClientFrame {
  const step = decoding.readVarUint(decoder)
  const body = decoding.readVarUint8Array(decoder)
  if (step === syncStep.step1) return { kind: 'state-vector', stateVector: body }
  if (step === syncStep.step2 || step === syncStep.update) return { kind: 'content', update: body }
  return { kind: 'unreadable' }
}

function syncFrame(step: number, body: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder()
  encoding.writeVarUint(encoder, messageType.sync)
  encoding.writeVarUint(encoder, step)
  encoding.writeVarUint8Array(encoder, body)
  return encoding.toUint8Array(encoder)
}

export const stateVectorFrame = (stateVector: Uint8Array): Uint8Array => syncFrame(syncStep.step1, stateVector)
export const stateFrame = (state: Uint8Array): Uint8Array => syncFrame(syncStep.step2, state)
export const updateFrame = (update: Uint8Array): Uint8Array => syncFrame(syncStep.update, update)

export function presenceFrame(states: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder()
  encoding.writeVarUint(encoder, messageType.awareness)
  encoding.writeVarUint8Array(encoder, states)
  return encoding.toUint8Array(encoder)
}
