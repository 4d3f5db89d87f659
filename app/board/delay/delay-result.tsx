import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-delay.ts'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import type { VideoDelay } from '@/lib/board/records/video-delay.ts'
import { isUnsteady, summariseDelays } from '@/lib/board/video-delay.ts'
import styles from './delay-dialog.module.css'

/** A person's reaction to something seen; common practice, no source. */
export const reactionMs = 300

interface DelayResultProps {
  readonly kept: VideoDelay
  readonly onAgain: () => void
  readonly onForget: () => void
}

/** The delay that is kept, how far the presses lie apart, and what the number does not hold. */
export function DelayResult({ kept, onAgain, onForget }: DelayResultProps) {
  const { delay } = useMessages()
  const summary = summariseDelays(kept.delaysMs)
  return (
    <div className={styles.measure}>
      <p className={styles.result} role="status">
        {delay.result(summary.medianMs)}
      </p>
      <p>
        {delay.spread(summary.lowMs, summary.highMs)} {delay.clockError(kept.clockErrorMs)}{' '}
        {delay.measuredAt(dayAndClockOf(kept.at))}
      </p>
      {isUnsteady(summary) && <p className={styles.caution}>{delay.unsteady}</p>}
      <p className={styles.fine}>{delay.limits(reactionMs)}</p>
      <div className={styles.acts}>
        <Button onClick={onAgain}>{delay.again}</Button>
        <Button tone="quiet" onClick={onForget}>
          {delay.forget}
        </Button>
      </div>
    </div>
  )
}
