import type { pictures } from '../en/pictures.ts'
import { part, type Shape } from '../part.ts'

export const picturesPart = part<Shape<{ pictures: typeof pictures }>>({
  en: () => import('../en/pictures.ts'),
  fr: () => import('../fr/pictures.ts'),
})
