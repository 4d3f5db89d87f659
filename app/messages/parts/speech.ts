import type { speech } from '../en/speech.ts'
import { part, type Shape } from '../part.ts'

export const speechPart = part<Shape<{ speech: typeof speech }>>({
  en: () => import('../en/speech.ts'),
  fr: () => import('../fr/speech.ts'),
})
