import type { Messages } from '@/app/messages/use-messages.ts'
import type { Option } from '@/lib/forecast/profiles.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** Device class and site in words, after the ear if it is known. */
export function optionText(
  { deviceClass, couplingSite }: Option,
  ear: Ear | undefined,
  words: Messages['forecast'],
  shared: Messages['words'],
): string {
  const name = words.forOption(shared.deviceClass[deviceClass], shared.couplingSite[couplingSite])
  return ear === undefined ? name : `${shared.ear[ear]}: ${name}`
}
