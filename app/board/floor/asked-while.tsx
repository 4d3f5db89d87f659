'use client'

import { useTable } from '@/app/board/board-context.tsx'
import { useNow } from '@/app/board/steps/use-now.ts'
import { useMessages } from '@/app/messages/for-delay.ts'
import { clockOf } from '@/app/messages/moments.ts'
import { serverNow } from '@/app/server-clock.ts'
import { operationMoment } from '@/lib/board/operation-moment.ts'

/** From then on the clock says more than how long ago. */
const longAgoMs = 3_600_000

/** Where the operation stood in the picture that the asker saw, and how long ago that was. */
export default function AskedWhile({ pictureAt }: { pictureAt: string }) {
  const { delay } = useMessages()
  const steps = useTable('steps')
  useNow(1000)
  const agoMs = Math.max(0, serverNow().getTime() - Date.parse(pictureAt))
  const when = agoMs < longAgoMs ? delay.ago(agoMs) : delay.atClock(clockOf(pictureAt))
  const moment = operationMoment(steps, pictureAt)
  const where =
    moment === undefined
      ? []
      : moment.kind === 'before-first'
        ? delay.beforeFirst
        : (moment.kind === 'in-step' ? delay.step : delay.afterStep)(moment.number, moment.title)
  return (
    <span>
      {delay.askedWhile} {[where, when].flat().join(', ')}
    </span>
  )
}
