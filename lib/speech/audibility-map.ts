import { asDbHl, type DbHl } from '../units/levels.ts'
import type { BandAudibility, IndexResult } from './intelligibility-index.ts'

/** One band of speech laid over an audiogram. */
export interface AudibilityBand {
  readonly frequencyHz: number
  /** The 30 dB range of speech as hearing levels: peaks and weakest parts. A threshold above `peaksDbHl` hears nothing. */
  readonly peaksDbHl: DbHl
  readonly weakestDbHl: DbHl
  /** Listener's threshold of the band. */
  readonly thresholdDbHl: DbHl
  /** Threshold, or masking where that is worse: what speech must exceed here. */
  readonly limitDbHl: DbHl
  readonly limitedBy: 'threshold' | 'masking'
  /** Part of the range that is audible, 0 to 1 (K). */
  readonly audibleProportion: number
  /** Part of all speech information that this band carries, 0 to 1 (I). */
  readonly importance: number
  /** Of that, the part that is lost, 0 to 1: I (1 - A). Adds up to 1 minus the index. */
  readonly lost: number
}

/**
 * The audibility of speech by frequency, as hearing levels, for drawing over an audiogram.
 *
 * A spectrum level E is heard at the hearing level E - X, X being the reference internal noise: the band is just
 * audible at its peaks when the threshold equals E - X + 15. This is the standard's step K written in dB HL, so that
 * picture and index cannot disagree.
 * @returns bands from low to high frequency
 * Source: ANSI S3.5-1997, 4.4 to 4.8. Checked by: tests/unit/speech/audibility-map.test.ts
 */
export function audibilityMap(result: IndexResult): readonly AudibilityBand[] {
  return result.bands.map((band) => audibilityBand(band))
}

function audibilityBand(band: BandAudibility): AudibilityBand {
  const reference = band.internalNoiseDb - band.thresholdDbHl
  const speechDbHl = band.speechDb - reference
  return {
    frequencyHz: band.frequencyHz,
    peaksDbHl: asDbHl(speechDbHl + 15),
    weakestDbHl: asDbHl(speechDbHl - 15),
    thresholdDbHl: asDbHl(band.thresholdDbHl),
    limitDbHl: asDbHl(band.disturbanceDb - reference),
    limitedBy: band.maskingDb > band.internalNoiseDb ? 'masking' : 'threshold',
    audibleProportion: band.audibleProportion,
    importance: band.importance,
    lost: band.importance * (1 - band.audibility),
  }
}
