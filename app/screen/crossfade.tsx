'use client'

import { type ReactNode, useState } from 'react'
import styles from './crossfade.module.css'

interface CrossfadeProps {
  /** while it stays the same, the content changes in place */
  readonly contentKey: string
  readonly children: ReactNode
}

interface Layer {
  readonly key: string
  readonly turn: number
  readonly content: ReactNode
}

/** Fades from one content to the next; both lie on the same place, so nothing moves. */
export function Crossfade({ contentKey, children }: CrossfadeProps) {
  const [shown, setShown] = useState<Layer>({ key: contentKey, turn: 0, content: children })
  const [leaving, setLeaving] = useState<Layer>()
  if (shown.content !== children || shown.key !== contentKey) {
    const moved = shown.key !== contentKey
    if (moved) setLeaving(shown)
    setShown({ key: contentKey, turn: shown.turn + (moved ? 1 : 0), content: children })
  }
  return (
    <div className={styles.fade}>
      {leaving !== undefined && (
        <div
          key={leaving.turn}
          className={styles.layer}
          data-leaving="true"
          aria-hidden="true"
          onAnimationEnd={() => setLeaving(undefined)}
        >
          {leaving.content}
        </div>
      )}
      <div key={shown.turn} className={styles.layer} data-arriving={shown.turn > 0}>
        {children}
      </div>
    </div>
  )
}
