import { useEffect, useSyncExternalStore } from 'react'
import type { RecordId } from '@/lib/board/identity.ts'
import type { KindName } from '@/lib/board/records.ts'
import type { DeviceOption } from '@/lib/devices/classes.ts'

/** A record that somebody wants to see where it stands. */
export interface JumpTarget {
  readonly kind: KindName
  readonly id: RecordId
  /** of the plan: the option that is to be looked at */
  readonly option?: DeviceOption
}

/** One wish at a time; it waits until the pane that has the record takes it (on a phone that pane opens first). */
export function createJump() {
  let target: JumpTarget | undefined
  const listeners = new Set<() => void>()
  const change = (next: JumpTarget | undefined) => {
    target = next
    for (const notify of listeners) notify()
  }
  return {
    getSnapshot: (): JumpTarget | undefined => target,
    subscribe: (notify: () => void) => {
      listeners.add(notify)
      return () => {
        listeners.delete(notify)
      }
    },
    jumpTo: (next: JumpTarget): void => change(next),
    /** The pane has shown it. A wish that came meanwhile stays. */
    arrived: (at: JumpTarget): void => {
      if (target === at) change(undefined)
    },
  }
}

const page = createJump()
export const { jumpTo } = page

export const useJumpTarget = (): JumpTarget | undefined =>
  useSyncExternalStore(page.subscribe, page.getSnapshot, () => undefined)

/** Takes jumps to records of these kinds; both arguments keep their identity between draws, or are cheap to run again. */
export function useJumps(kinds: readonly KindName[], show: (target: JumpTarget) => void): void {
  const target = useJumpTarget()
  useEffect(() => {
    if (target === undefined || !kinds.includes(target.kind)) return
    show(target)
    page.arrived(target)
  }, [target, kinds, show])
}
