import type { votes } from '../en/votes.ts'
import { part, type Shape } from '../part.ts'

export const votesPart = part<Shape<{ votes: typeof votes }>>({
  en: () => import('../en/votes.ts'),
  fr: () => import('../fr/votes.ts'),
})
