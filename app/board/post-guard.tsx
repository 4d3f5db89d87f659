'use client'

import { createContext, type ReactNode, useCallback, useContext, useState } from 'react'
import { type IdentifyingPart, identifyingParts } from '@/lib/board/identifying-text.ts'
import { PostGuardDialog } from './later-parts.ts'

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

/** A text that waits for its writer's word, with what looks identifying in it. */
export interface Held {
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
        open={held !== undefined}
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
