import type { invitations } from '../en/invitations.ts'
import { part, type Shape } from '../part.ts'

export const invitationsPart = part<Shape<{ invitations: typeof invitations }>>({
  en: () => import('../en/invitations.ts'),
  fr: () => import('../fr/invitations.ts'),
})
