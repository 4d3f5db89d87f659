import type { Messages } from '@/app/messages/for-forecast.ts'
import type { EarRefusal } from '@/lib/forecast/ear-options.ts'

/** Why there is no forecast, as a sentence that says what to do. */
export function refusalText(refusal: EarRefusal, words: Messages['forecast'], shared: Messages['words']): string {
  const { refusal: sentences } = words
  switch (refusal.code) {
    case 'ossicle-missing':
      return sentences['ossicle-missing'](refusal.ossicle)
    case 'no-current-test':
    case 'no-bone-thresholds':
      return sentences[refusal.code](shared.earShort[refusal.ear])
    case 'beyond-working-range':
      return sentences['beyond-working-range'](refusal.boneMeanDbHl, refusal.maximumOutputDbHl)
    case 'findings-contradict':
      return sentences['findings-contradict'][refusal.how](refusal.ossicle)
    case 'age-outside-norm':
      return sentences['age-outside-norm'](refusal.youngest, refusal.oldest)
    case 'age-not-known':
    case 'no-plan':
    case 'no-device-class':
    case 'no-coupling-site':
    case 'no-profile':
    case 'drive-interrupted':
      return sentences[refusal.code]()
    default:
      return refusal satisfies never
  }
}

/** The same in a few words, beside other options of the same ear. */
export function shortRefusalText(refusal: EarRefusal, words: Messages['forecast'], shared: Messages['words']): string {
  if (refusal.code === 'ossicle-missing') return words.refusalShort['ossicle-missing'](refusal.ossicle)
  if (refusal.code === 'beyond-working-range')
    return words.refusalShort['beyond-working-range'](refusal.maximumOutputDbHl)
  if (refusal.code === 'findings-contradict') return words.refusalShort['findings-contradict'](refusal.ossicle)
  return refusalText(refusal, words, shared)
}
