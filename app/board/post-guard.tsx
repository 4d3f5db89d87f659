'use client'

import { createContext, type ReactNode, useCallback, useContext, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { type IdentifyingPart, identifyingParts } from '@/lib/board/identifying-text.ts'
import styles from './post-guard.module.css'

/** Posts at once, or asks first when the text looks as if it identified somebody. */
export type BeforePosting = (text: string, post: () => void) => void

const PostGuardContext = createContext<BeforePosting | undefined>(undefined)

/**
 * `const beforePosting = usePostGuard()`, then `beforePosting(text, () => raiseQuestion(...))`. The text stays in its
 * field until `post` is called, so that its writer can change it.
 * @throws TypeError outside a PostGuardProvider
 */
export function usePostGuard(): BeforePosting {
  const beforePosting = useContext(PostGuardContext)
  if (beforePosting === undefined) throw new TypeError('usePostGuard needs a PostGuardProvider above it')
  return beforePosting
}

interface Held {
  readonly parts: readonly IdentifyingPart[]
  readonly post: () => void
}

export function PostGuardProvider({ children }: { children: ReactNode }) {
  const [held, setHeld] = useState<Held>()
  const beforePosting = useCallback<BeforePosting>((text, post) => {
    const parts = identifyingParts(text)
    if (parts.length === 0) post()
    else setHeld({ parts, post })
  }, [])
  const close = () => setHeld(undefined)
  return (
    <PostGuardContext value={beforePosting}>
      {children}
      <PostGuardDialog
        held={held}
        onChange={close}
        onPost={() => {
          held?.post()
          close()
        }}
      />
    </PostGuardContext>
  )
}

interface PostGuardDialogProps {
  readonly held: Held | undefined
  readonly onChange: () => void
  readonly onPost: () => void
}

function PostGuardDialog({ held, onChange, onPost }: PostGuardDialogProps) {
  const { postGuard } = useMessages()
  return (
    <Dialog open={held !== undefined} onClose={onChange} title={postGuard.title}>
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
