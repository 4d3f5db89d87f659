import { useEffect, useState } from 'react'
import { Map as SharedMap, type Transaction, type YMapEvent } from 'yjs'
import { useBoard } from '@/app/board/board-context.tsx'
import type { RecordId } from '@/lib/board/identity.ts'
import { tableOf } from '@/lib/board/layout.ts'
import type { PointKey } from '@/lib/board/records/hearing-test.ts'
import { Presence } from '@/lib/board/wire.ts'

/** Points of a test that somebody else changed while this page was open, with who changed them last. */
export function useLastChanges(test: RecordId, somebody: string): ReadonlyMap<PointKey, string> {
  const { record, awareness } = useBoard()
  const [changes, setChanges] = useState<ReadonlyMap<PointKey, string>>(new Map())
  useEffect(() => {
    setChanges(new Map())
    const shared = tableOf(record, 'tests').get(test)
    const points = shared instanceof SharedMap ? shared.get('points') : undefined
    if (!(points instanceof SharedMap)) return
    const nameOf = (client: number | undefined): string =>
      client === undefined
        ? somebody
        : (Presence.safeParse(awareness.getStates().get(client)).data?.user.name ?? somebody)
    const onChange = (event: YMapEvent<unknown>, transaction: Transaction) => {
      setChanges((before) => {
        const after = new Map(before)
        for (const key of event.keysChanged) {
          if (transaction.local) after.delete(key)
          else after.set(key, nameOf(points._map.get(key)?.id.client))
        }
        return after
      })
    }
    points.observe(onChange)
    return () => points.unobserve(onChange)
  }, [record, awareness, test, somebody])
  return changes
}
