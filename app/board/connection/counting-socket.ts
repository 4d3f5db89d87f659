import * as decoding from 'lib0/decoding'
import { carriesContent, messageType, spokenOf, syncStep } from '@/lib/board/wire.ts'
import { takeEarlyCall } from './early-call.ts'

export interface FrameListener {
  opened(): void
  /** a content frame goes out */
  sending(): void
}

/**
 * Whether a frame has to wait. Before the server has asked what it lacks, an edit may build on others that it does not
 * have; the answer to its question carries everything, so the frame itself is not needed.
 */
export const isTooEarly = (frame: Uint8Array, answered: boolean): boolean =>
  !answered && frame[0] === messageType.sync && frame[1] === syncStep.update

export const isAnswer = (frame: Uint8Array): boolean => frame[0] === messageType.sync && frame[1] === syncStep.step2

/**
 * Whether a frame says again what others published. The provider sends back all that it hears of them: with a hundred
 * people in a hall, everybody's pointer would come to the server a hundred times.
 */
export function isEcho(frame: Uint8Array, ownClient: number): boolean {
  if (frame[0] !== messageType.awareness) return false
  const decoder = decoding.createDecoder(frame)
  decoding.readVarUint(decoder)
  // Who was taken for gone hears of that together with others, and says of all of them at once that they are here.
  return !spokenOf(decoding.readVarUint8Array(decoder)).some(({ client }) => client === ownClient)
}

/**
 * Makes WebSockets that tell of the content frames they send, for a provider that takes it for the class itself.
 * @param ownClient under which this page publishes its presence
 * @param asked whether the server asks this person's page for what it lacks (it asks those who may write)
 */
export function countingSocket(listener: FrameListener, ownClient: number, asked: boolean): typeof WebSocket {
  // What a constructor returns takes the place of what it was making: here a socket that may be open already.
  return function open(address: string): WebSocket {
    const socket = takeEarlyCall(address) ?? new WebSocket(address)
    const send = socket.send.bind(socket)
    let answered = !asked
    listener.opened()
    socket.send = (data) => {
      if (data instanceof Uint8Array) {
        if (isTooEarly(data, answered) || isEcho(data, ownClient)) return
        if (isAnswer(data)) answered = true
        if (carriesContent(data)) listener.sending()
      }
      send(data)
    }
    return socket
  } as unknown as typeof WebSocket
}
