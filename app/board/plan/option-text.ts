import type { Messages } from '@/app/messages/use-messages.ts'
import type { Option } from '@/lib/forecast/profiles.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** Device class and site in words, after the ear if it is known; a class that drives the skull has no other site to name. */
export function optionText(
  { deviceClass, couplingSite }: Option,
  ear: Ear | undefined,
  words: Messages['forecast'],
  shared: Messages['words'],
): string {
  const className = shared.deviceClass[deviceClass]
  const name = couplingSite === 'skull' ? className : words.forOption(className, shared.couplingSite[couplingSite])
  return ear === undefined ? name : `${shared.ear[ear]}: ${name}`
}
