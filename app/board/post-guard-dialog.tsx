'use client'

import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './post-guard.module.css'
import type { Held } from './post-guard.tsx'

interface PostGuardDialogProps {
  readonly open: boolean
  readonly held: Held | undefined
  readonly onChange: () => void
  readonly onPost: () => void
}

export function PostGuardDialog({ open, held, onChange, onPost }: PostGuardDialogProps) {
  const { postGuard } = useMessages()
  return (
    <Dialog open={open} onClose={onChange} title={postGuard.title}>
      <p>{postGuard.explanation}</p>
      <ul className={styles.parts}>
        {held?.parts.map(({ kind, excerpt }) => (
          <li key={`${kind} ${excerpt}`} className={styles.part}>
            <q className={styles.excerpt}>{excerpt}</q> {postGuard.kind[kind]}
          </li>
        ))}
      </ul>
      <div className={styles.choices}>
        <Button tone="accent" onClick={onChange} autoFocus>
          {postGuard.change}
        </Button>
        <Button onClick={onPost}>{postGuard.postAnyway}</Button>
      </div>
    </Dialog>
  )
}
