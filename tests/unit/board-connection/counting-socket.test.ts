import * as encoding from 'lib0/encoding'
import { expect, test } from 'vitest'
import { Awareness, applyAwarenessUpdate, encodeAwarenessUpdate } from 'y-protocols/awareness'
import * as syncProtocol from 'y-protocols/sync'
import * as Y from 'yjs'
import { isAnswer, isEcho, isTooEarly } from '../../../app/board/connection/counting-socket.ts'
import { carriesContent, messageType } from '../../../lib/board/wire.ts'

function frame(write: (encoder: encoding.Encoder) => void, type: number = messageType.sync): Uint8Array {
  const encoder = encoding.createEncoder()
  encoding.writeVarUint(encoder, type)
  write(encoder)
  return encoding.toUint8Array(encoder)
}

const doc = new Y.Doc()
const question = frame((encoder) => syncProtocol.writeSyncStep1(encoder, doc))
const answer = frame((encoder) => syncProtocol.writeSyncStep2(encoder, doc))
const update = frame((encoder) => syncProtocol.writeUpdate(encoder, Y.encodeStateAsUpdate(doc)))
const presence = frame((encoder) => encoding.writeVarUint8Array(encoder, new Uint8Array([0])), messageType.awareness)

test('an update waits until the server has been told what it lacks', () => {
  expect(isTooEarly(update, false)).toBe(true)
  expect(isTooEarly(update, true)).toBe(false)
})

test('questions, answers and presence never wait', () => {
  for (const other of [question, answer, presence]) expect(isTooEarly(other, false)).toBe(false)
})

test('only the second step of y-protocols is an answer', () => {
  expect([question, answer, update, presence].map(isAnswer)).toEqual([false, true, false, false])
})

test('answers and updates are counted as content, nothing else is', () => {
  expect([question, answer, update, presence].map(carriesContent)).toEqual([false, true, true, false])
})

test('what a page publishes of itself goes out, and what it heard of others does not go back', () => {
  const [own, other] = [new Awareness(new Y.Doc()), new Awareness(new Y.Doc())]
  own.setLocalState({ user: 'Teal' })
  other.setLocalState({ user: 'Plover' })
  applyAwarenessUpdate(own, encodeAwarenessUpdate(other, [other.clientID]), 'the server')
  const saying = (clients: number[]) =>
    frame((encoder) => encoding.writeVarUint8Array(encoder, encodeAwarenessUpdate(own, clients)), messageType.awareness)
  expect(isEcho(saying([own.clientID]), own.clientID)).toBe(false)
  expect(isEcho(saying([other.clientID]), own.clientID)).toBe(true)
  // The answer to a message that took this page for gone, together with others.
  expect(isEcho(saying([other.clientID, own.clientID]), own.clientID)).toBe(false)
  for (const each of [question, answer, update]) expect(isEcho(each, own.clientID)).toBe(false)
  own.destroy()
  other.destroy()
})
