import { createContext, useCallback, useMemo, useState } from 'react'
import { isUnnamed, type ParticipantId } from '@/lib/board/identity.ts'
import type { Question } from '@/lib/board/records/question.ts'
import type { UnnamedAuthor } from '@/lib/interchange/unnamed.ts'

/** What this page knows of the authors who stand for somebody that asked without their name. */
export interface UnnamedOnBoard {
  /** those that stand for this person */
  readonly own: ReadonlySet<ParticipantId>
  /** who is behind them and what they looked at, where this person may know it */
  readonly told: ReadonlyMap<ParticipantId, UnnamedAuthor>
  /** the page has just asked as this author */
  learn(author: ParticipantId): void
}

export const UnnamedContext = createContext<UnnamedOnBoard>({
  own: new Set(),
  told: new Map(),
  learn: () => undefined,
})

/** Fetched when somebody asks without their name, or somebody else has: few boards need it. */
export const loadUnnamedApi = () => import('./unnamed-api.ts')

/** Authors without a name among these questions, once each. */
export const unnamedIn = (questions: readonly Question[]): readonly ParticipantId[] => [
  ...new Set(questions.map(({ author }) => author).filter(isUnnamed)),
]

/** What is known of them so far; `TellUnnamed` asks the server. */
export function useUnnamedOnBoard() {
  const [told, setTold] = useState<ReadonlyMap<ParticipantId, UnnamedAuthor>>(new Map())
  const onTold = useCallback(
    (found: readonly UnnamedAuthor[]) =>
      setTold((before) => new Map([...before, ...found.map((one) => [one.author, one] as const)])),
    [],
  )
  const unnamed = useMemo<UnnamedOnBoard>(
    () => ({
      told,
      own: new Set([...told.values()].filter(({ isOwn }) => isOwn).map(({ author }) => author)),
      learn: (author) => onTold([{ author, isOwn: true, person: null, pictureAt: null }]),
    }),
    [told, onTold],
  )
  return { unnamed, onTold }
}
