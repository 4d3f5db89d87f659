import type { wishWords } from '../en/wish.ts'
import { part, type Shape } from '../part.ts'

export const wishPart = part<Shape<{ wishWords: typeof wishWords }>>({
  en: () => import('../en/wish.ts'),
  fr: () => import('../fr/wish.ts'),
})
