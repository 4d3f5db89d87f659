import type { ParticipantId } from '@/lib/board/identity.ts'

/**
 * Colours of carets and pointers, the same on every page, so they travel with the presence instead of coming from the
 * theme. Each keeps 3:1 against the grounds of both themes; none is an ear colour.
 */
const colours = ['#2f8573', '#a0631a', '#6f7d22', '#3f7f9c', '#a8567a', '#8a6d55', '#4f8a3a', '#7a7f86'] as const

export function presenceColour(participant: ParticipantId): string {
  let sum = 0
  for (const character of participant) sum = (sum * 31 + character.charCodeAt(0)) % 65_521
  return colours[sum % colours.length] ?? colours[0]
}
