'use client'

import { equalityDeep } from 'lib0/function'
import { useCallback, useEffect, useMemo, useRef, useSyncExternalStore } from 'react'
import { Presence } from '@/lib/board/wire.ts'
import { useBoard } from './board-context.tsx'
import { presenceColour } from './connection/presence-colour.ts'

export type ChartPointer = NonNullable<Presence['pointer']>

export interface OtherPointer {
  readonly user: Presence['user']
  readonly pointer: ChartPointer
}

const pointerEveryMs = 100

/** While somebody writes without their name, their pointer would say whose place on the audiogram it is. */
let isPointerHidden = false

/** Takes one's own pointer down for as long as this holds. */
export function useHiddenPointer(isHidden: boolean): void {
  const { awareness } = useBoard()
  useEffect(() => {
    isPointerHidden = isHidden
    if (isHidden && awareness.getLocalState() !== null) awareness.setLocalStateField('pointer', null)
    return () => {
      isPointerHidden = false
    }
  }, [isHidden, awareness])
}

/** Publishes where this person points on the audiogram, ten times a second at most; null takes the pointer away. */
export function usePointer(): (pointer: ChartPointer | null) => void {
  const { awareness } = useBoard()
  const waiting = useRef<{ timer: ReturnType<typeof setTimeout> | undefined; next: ChartPointer | null }>({
    timer: undefined,
    next: null,
  })
  useEffect(() => () => clearTimeout(waiting.current.timer), [])
  return useCallback(
    (pointer) => {
      const state = waiting.current
      state.next = isPointerHidden ? null : pointer
      state.timer ??= setTimeout(() => {
        state.timer = undefined
        if (awareness.getLocalState() !== null) awareness.setLocalStateField('pointer', state.next)
      }, pointerEveryMs)
    },
    [awareness],
  )
}

/** What a shared text's caret publishes: the whole user, since the server drops a presence without it. */
export function usePresenceUser(): Presence['user'] {
  const { me } = useBoard()
  return useMemo(
    () => ({ id: me.participant, name: me.name, role: me.role, color: presenceColour(me.participant) }),
    [me],
  )
}

/** Everybody's presence but one's own. `pick` keeps its identity. */
export function useOthers<T>(pick: (presence: Presence) => T | undefined): readonly T[] {
  const { awareness } = useBoard()
  const last = useRef<readonly T[]>([])
  const snapshot = useCallback(() => {
    const next = [...awareness.getStates()].flatMap(([client, state]) => {
      const presence = client === awareness.clientID ? undefined : Presence.safeParse(state).data
      const picked = presence === undefined ? undefined : pick(presence)
      return picked === undefined ? [] : [picked]
    })
    if (!equalityDeep(last.current, next)) last.current = next
    return last.current
  }, [awareness, pick])
  const subscribe = useCallback(
    (notify: () => void) => {
      awareness.on('change', notify)
      return () => awareness.off('change', notify)
    },
    [awareness],
  )
  return useSyncExternalStore(subscribe, snapshot, snapshot)
}

const pointerOf = ({ user, pointer }: Presence): OtherPointer | undefined =>
  pointer === undefined || pointer === null ? undefined : { user, pointer }

/** Where others point on the audiogram now. */
export const usePointers = (): readonly OtherPointer[] => useOthers(pointerOf)

/** Publishes at which record (`kind/id`) this person is typing; null when no longer. */
export function useTyping(): (place: string | null) => void {
  const { awareness } = useBoard()
  return useCallback(
    (place) => {
      if (awareness.getLocalState() !== null) awareness.setLocalStateField('typing', place)
    },
    [awareness],
  )
}

/** Who else is typing at a place (`kind/id`). */
export function useTypists(place: string): readonly Presence['user'][] {
  return useOthers(useCallback(({ user, typing }: Presence) => (typing === place ? user : undefined), [place]))
}
