import type { delay } from '../en/delay.ts'
import { part, type Shape } from '../part.ts'

export const delayPart = part<Shape<{ delay: typeof delay }>>({
  en: () => import('../en/delay.ts'),
  fr: () => import('../fr/delay.ts'),
})
