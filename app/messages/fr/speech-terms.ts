import type * as English from '../en/speech-terms.ts'
import type { Shape } from '../part.ts'

export const speechMaterial: Shape<typeof English.speechMaterial> = {
  monosyllables: 'Monosyllabes',
  disyllables: 'Dissyllabes',
  phonemes: 'Phonèmes',
  sentences: 'Phrases',
  digits: 'Chiffres',
}

export const agreements: Shape<typeof English.agreements> = { good: 'bonne', fair: 'moyenne', poor: 'mauvaise' }
export const toneAverages: Shape<typeof English.toneAverages> = {
  pta3: 'moyenne des sons purs à 0,5 ; 1 et 2 kHz',
  fletcher2: 'moyenne des deux meilleurs sons purs parmi 0,5 ; 1 et 2 kHz',
}
