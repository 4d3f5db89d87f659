import type { SharedPointer } from '@/app/audiogram/notes.ts'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import { useBoard } from '@/app/board/board-context.tsx'
import { usePointer, usePointers } from '@/app/board/presence.ts'
import { rolesWithPresence } from '@/lib/board/roles.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** Others' pointers on a chart of these ears, and the way to publish one's own; observers publish nothing. */
export function useSharedPointers(ear: Ear, ears: readonly Ear[]) {
  const { me } = useBoard()
  const point = usePointer()
  const pointers: readonly SharedPointer[] = usePointers()
    .filter(({ pointer }) => ears.includes(pointer.ear))
    .map(({ user, pointer }) => ({ id: user.id, name: user.name, ...pointer }))
  const publish = ({ phase, hz, dbHl }: ChartPointing) => {
    if (!rolesWithPresence.includes(me.role)) return
    point(phase === 'leave' ? null : { ear, frequencyHz: within(hz, 90, 20_000), levelDbHl: within(dbHl, -30, 140) })
  }
  return { pointers, publish }
}

const within = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value))
