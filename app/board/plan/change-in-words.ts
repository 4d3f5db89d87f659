import type { Messages } from '@/app/messages/for-forecast.ts'
import type { EarChange } from '@/lib/devices/ear-changes.ts'

type Words = Messages['whatIf']['finding']

/** One thing that is different in an ear. */
export function changeInWords(change: EarChange, words: Words): string {
  switch (change.kind) {
    case 'ligament-stiffened':
      return words['ligament-stiffened'](words.ligament[change.ligament], change.times)
    case 'ligament-fixed':
      return words['ligament-fixed'](words.ligament[change.ligament])
    case 'incus-bridge':
      return words['incus-bridge'](change.stiffnessNPerM)
    case 'joint-slack':
      return words['joint-slack'](words.joint[change.joint], Number((100 * change.factor).toPrecision(3)))
    case 'joint-ankylosed':
      return words['joint-ankylosed'](words.joint[change.joint])
    case 'mass-added':
      return words['mass-added'](words.site[change.site], change.massMg)
    case 'contact-loss':
      return words['contact-loss'](change.lossDb, change.sdDb)
    case 'incus-stapes-apart':
    case 'incus-missing':
    case 'stapes-superstructure-missing':
    case 'cavity-open':
    case 'eardrum-absent':
    case 'incus-axis-compliant':
    case 'third-window':
      return words[change.kind]
    default:
      return change satisfies never
  }
}
