import type { Messages } from '@/app/messages/for-forecast.ts'

/** Why nothing could be computed to be sealed, by the code of the refusal, in a few words. */
export function sealingText(reason: string, words: Messages['forecast']): string {
  const sentences: Readonly<Record<string, string>> = words.cannotSeal
  return sentences[reason] ?? words.cannotSealOther
}
