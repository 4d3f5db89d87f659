import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { ListeningCondition } from '../speech/ear-index.ts'

export type SpeechConditionId = 'quiet-55' | 'quiet-65' | 'noise-65'

/** Speech from the front to one ear, as recorded words; noise has the spectrum of the speech and comes from the same place. */
export interface SpeechCondition {
  readonly id: SpeechConditionId
  readonly speechDbSpl: number
  /** absent: quiet */
  readonly noiseDbSpl?: number
  readonly listening: ListeningCondition
}

/** Signal-to-noise ratio of the condition in noise, dB. */
export const speechInNoiseRatioDb = 5

function conditionOf(id: SpeechConditionId, speechDbSpl: number, noiseDbSpl?: number): SpeechCondition {
  const listening: ListeningCondition = {
    procedure: 'one-third-octave',
    material: 'average-speech',
    speech: { kind: 'level', overallDbSpl: speechDbSpl, effort: 'normal' },
    noise: noiseDbSpl === undefined ? { kind: 'quiet' } : { kind: 'speech-shaped', overallDbSpl: noiseDbSpl },
    listening: 'monaural',
  }
  return { id, speechDbSpl, listening, ...(noiseDbSpl === undefined ? {} : { noiseDbSpl }) }
}

/** What a forecast says of speech: soft and ordinary speech in quiet, ordinary speech in noise 5 dB below it. */
export const speechConditions: readonly SpeechCondition[] = [
  conditionOf('quiet-55', 55),
  conditionOf('quiet-65', 65),
  conditionOf('noise-65', 65, 65 - speechInNoiseRatioDb),
]

export const speechConditionChoice: EvidenceSource = {
  id: 'speech-conditions',
  citation:
    'Levels of speech chosen by this board: 55 and 65 dB SPL in quiet, 65 dB SPL in speech-shaped noise of 60 dB SPL; common practice, no source',
  status: 'assumption',
}
