import type { meeting } from '../en/meeting.ts'
import { part, type Shape } from '../part.ts'

export const meetingPart = part<Shape<{ meeting: typeof meeting }>>({
  en: () => import('../en/meeting.ts'),
  fr: () => import('../fr/meeting.ts'),
})
