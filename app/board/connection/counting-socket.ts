import { carriesContent, messageType, syncStep } from '@/lib/board/wire.ts'

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
 * A WebSocket that tells of the content frames it sends.
 * @param asked whether the server asks this person's page for what it lacks (it asks those who may write)
 */
export function countingSocket(listener: FrameListener, asked: boolean): typeof WebSocket {
  return class extends WebSocket {
    private answered = !asked

    constructor(url: string | URL, protocols?: string | string[]) {
      super(url, protocols)
      listener.opened()
    }

    override send(data: Parameters<WebSocket['send']>[0]): void {
      if (data instanceof Uint8Array) {
        if (isTooEarly(data, this.answered)) return
        if (isAnswer(data)) this.answered = true
        if (carriesContent(data)) listener.sending()
      }
      super.send(data)
    }
  }
}
