import type { Messages } from '@/app/messages/use-messages.ts'
import type { Option } from '@/lib/forecast/profiles.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** Device class and site in words, after the ear if it is known; a class that drives the skull has no other site to name. */
export function optionText(
  { deviceClass, couplingSite }: Option,
  ear: Ear | undefined,
  words: Messages['words'],
): string {
  const className = words.deviceClass[deviceClass]
  const name = couplingSite === 'skull' ? className : words.option(className, words.couplingSite[couplingSite])
  return ear === undefined ? name : words.labelled(words.ear[ear], name)
}
