'use client'

import { useEffect, useState } from 'react'
import { useMessages } from '@/app/messages/for-screens.ts'
import { serverNow } from '@/app/server-clock.ts'
import { useServerClock } from '@/app/use-server-clock.ts'
import { markAt, msToNextMark } from '@/lib/board/video-delay.ts'
import styles from './sync-mark-view.module.css'

/** A clock of a display drifts by some ms an hour; one that was set by hand meanwhile by anything. */
const readAgainMs = 60_000

/** The number by which remote participants measure their video delay. Each change turns the ground over, which even a poor picture shows. */
export function SyncMarkView() {
  const { screen } = useMessages().screens
  const mark = useMark()
  return (
    <section className={styles.card} data-turned={mark !== undefined && mark % 2 === 0}>
      <p className={styles.words}>{screen.syncMark}</p>
      <p className={styles.mark}>{mark ?? '·'}</p>
      <p className={styles.words}>{mark === undefined ? screen.syncMarkWaits : screen.syncMarkHow}</p>
    </section>
  )
}

/** The number that stands now by the server's clock; undefined until that has been read. */
function useMark(): number | undefined {
  const { clock, readAgain } = useServerClock()
  const [mark, setMark] = useState<number>()
  const isKnown = mark !== undefined || clock.state === 'known'
  useEffect(() => {
    if (clock.state === 'reading') return
    const timer = setTimeout(readAgain, clock.state === 'failed' && !isKnown ? msToNextMark(Date.now()) : readAgainMs)
    return () => clearTimeout(timer)
  }, [clock, isKnown, readAgain])
  useEffect(() => {
    if (!isKnown) return
    let timer: ReturnType<typeof setTimeout>
    const turn = () => {
      const nowMs = serverNow().getTime()
      setMark(markAt(nowMs))
      timer = setTimeout(turn, msToNextMark(nowMs))
    }
    turn()
    return () => clearTimeout(timer)
  }, [isKnown])
  return mark
}
