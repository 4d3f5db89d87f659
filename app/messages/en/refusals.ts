import { sentenceOf } from '@/lib/board/refusal-sentences.ts'
import type { Refusal } from '@/lib/board/refusals.ts'
import type { ApiErrorCode } from '@/lib/interchange/api.ts'

/** Why the server took something not over. In English its own sentences stand, with their details. */
export const refusals = {
  ofEdit: (refused: Refusal): string => sentenceOf(refused),
  ofRequest: (_code: ApiErrorCode, message: string): string => message,
}
