'use client'

import { useState } from 'react'
import { useBoard, useRecord, useSingle } from '@/app/board/board-context.tsx'
import { usePutOnScreen } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-delay.ts'
import { useServerClock } from '@/app/use-server-clock.ts'
import { forgetVideoDelay, keepVideoDelay } from '@/lib/board/edits/video-delay.ts'
import styles from './delay-dialog.module.css'
import { DelayResult } from './delay-result.tsx'
import { MeasureDelay } from './measure-delay.tsx'

/** Measures how late this person sees the main screen, and shows what is kept of it. */
export default function DelayDialog({ open, onClose }: { open: boolean; onClose: () => void }) {
  const { delay } = useMessages()
  return (
    <Dialog open={open} onClose={onClose} title={delay.title}>
      <MyDelay />
    </Dialog>
  )
}

function MyDelay() {
  const { delay } = useMessages()
  const { me, floor, pen } = useBoard()
  const kept = useRecord('videoDelays', me.participant)
  const [isAnew, setAnew] = useState(false)
  const say = useSay()
  if (kept !== undefined && !isAnew)
    return (
      <DelayResult
        kept={kept}
        onAgain={() => setAnew(true)}
        onForget={() => {
          forgetVideoDelay(floor, pen)
          say(delay.forgotten)
        }}
      />
    )
  return (
    <div className={styles.measure}>
      <p>{delay.why}</p>
      <p>{delay.how}</p>
      <MarkOnScreen />
      <Measuring
        onMeasured={(delaysMs, clockErrorMs) => {
          keepVideoDelay(floor, pen, { delaysMs, clockErrorMs })
          setAnew(false)
        }}
      />
    </div>
  )
}

/** Whether there is anything to watch; whoever runs the main screen puts the mark up and takes it down here. */
function MarkOnScreen() {
  const { delay } = useMessages()
  const put = usePutOnScreen()
  const isUp = useSingle('mainScreen')?.showing.kind === 'sync-mark'
  if (put === undefined)
    return isUp ? null : (
      <p className={styles.caution} role="status">
        {delay.markIsDown}
      </p>
    )
  return (
    <Button className={styles.act} onClick={() => put({ kind: isUp ? 'nothing' : 'sync-mark' })}>
      {isUp ? delay.takeDown : delay.putUp}
    </Button>
  )
}

function Measuring({ onMeasured }: { onMeasured: (delaysMs: number[], clockErrorMs: number) => void }) {
  const { delay } = useMessages()
  const { clock, readAgain } = useServerClock()
  switch (clock.state) {
    case 'reading':
      return <p role="status">{delay.readingClock}</p>
    case 'failed':
      return (
        <p className={styles.caution} role="alert">
          {delay.clockFailed} <Button onClick={readAgain}>{delay.tryAgain}</Button>
        </p>
      )
    case 'known': {
      const { errorMs } = clock.offset
      return <MeasureDelay clockErrorMs={errorMs} onMeasured={(delaysMs) => onMeasured(delaysMs, errorMs)} />
    }
    default:
      return clock satisfies never
  }
}
