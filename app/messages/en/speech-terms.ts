import type { FindingFacts } from '@/lib/audiometry/findings.ts'
import type { SpeechToneGrade } from '@/lib/audiometry/speech-agreement.ts'

/** Words for speech tests that several parts share: by themselves, so that a late part brings no other with it. */
export const speechMaterial = {
  monosyllables: 'Monosyllables',
  disyllables: 'Disyllables',
  phonemes: 'Phonemes',
  sentences: 'Sentences',
  digits: 'Digits',
} as const

export const agreements: Readonly<Record<SpeechToneGrade, string>> = { good: 'good', fair: 'fair', poor: 'poor' }
export const toneAverages: Readonly<Record<FindingFacts['speech-better-than-tones']['average'], string>> = {
  pta3: 'average of the tones at 0.5, 1 and 2 kHz',
  fletcher2: 'average of the two best tones of 0.5, 1 and 2 kHz',
}
