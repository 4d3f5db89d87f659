'use client'

import { useCallback, useEffect, useState } from 'react'
import type * as z from 'zod/mini'
import { ApiFault, askApi, sentenceOfFault } from './api-client.ts'

export type Answer<T> =
  | { readonly state: 'asking' }
  | { readonly state: 'failed'; readonly reason: string; readonly code: ApiFault['code'] | undefined }
  | { readonly state: 'ready'; readonly value: T }

/** Asks the server when the page opens, and again on `reload`; what was there stays in view meanwhile. */
export function useAnswer<S extends z.ZodMiniType>(
  path: `/api/${string}`,
  schema: S,
): { readonly answer: Answer<z.infer<S>>; readonly reload: () => void } {
  const [answer, setAnswer] = useState<Answer<z.infer<S>>>({ state: 'asking' })
  const [turn, setTurn] = useState(0)
  // biome-ignore lint/correctness/useExhaustiveDependencies: `turn` asks again
  useEffect(() => {
    const leaving = new AbortController()
    askApi(path, schema, { signal: leaving.signal }).then(
      (value) => setAnswer({ state: 'ready', value }),
      (error: unknown) => {
        if (leaving.signal.aborted) return
        setAnswer({
          state: 'failed',
          reason: sentenceOfFault(error),
          code: error instanceof ApiFault ? error.code : undefined,
        })
      },
    )
    return () => leaving.abort()
  }, [path, schema, turn])
  const reload = useCallback(() => setTurn((before) => before + 1), [])
  return { answer, reload }
}
