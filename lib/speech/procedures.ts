import type { Provenance } from '../audiometry/provenance.ts'

export type ProcedureId = 'one-third-octave' | 'octave'

/** Vocal efforts of ANSI S3.5-1997, in rising order. */
export const vocalEfforts = ['normal', 'raised', 'loud', 'shout'] as const
export type VocalEffort = (typeof vocalEfforts)[number]

/** One procedure of ANSI S3.5-1997 with its constants per band; every list has one value a band, low to high. */
export interface Procedure extends Provenance {
  readonly id: ProcedureId
  readonly bandsHz: readonly number[]
  /** 10 log10 of the bandwidth in Hz: band level minus spectrum level, dB. */
  readonly bandwidthDb: readonly number[]
  /** Standard speech spectrum levels 1 m from the talker, dB re 20 µPa per Hz. */
  readonly speechSpectrumDb: { readonly [Effort in VocalEffort]: readonly number[] }
  /** Reference internal noise spectrum X, dB: what limits a listener whose threshold is 0 dB HL. */
  readonly internalNoiseDb: readonly number[]
}

export const oneThirdOctave: Procedure = {
  id: 'one-third-octave',
  bandsHz: [160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000],
  bandwidthDb: [
    15.65, 16.65, 17.65, 18.65, 19.65, 20.65, 21.65, 22.65, 23.65, 24.65, 25.65, 26.65, 27.65, 28.65, 29.65, 30.65,
    31.65, 32.65,
  ],
  speechSpectrumDb: {
    normal: [
      32.41, 34.48, 34.75, 33.98, 34.59, 34.27, 32.06, 28.3, 25.01, 23, 20.15, 17.32, 13.18, 11.55, 9.33, 5.31, 2.59,
      1.13,
    ],
    raised: [
      33.81, 33.92, 38.98, 38.57, 39.11, 40.15, 38.78, 36.37, 33.86, 31.89, 28.58, 25.32, 22.35, 20.15, 16.78, 11.47,
      7.67, 5.07,
    ],
    loud: [
      35.29, 37.76, 41.55, 43.78, 43.3, 44.85, 45.55, 44.05, 42.16, 40.53, 37.7, 34.39, 30.98, 28.21, 25.41, 18.35,
      13.87, 11.39,
    ],
    shout: [
      30.77, 36.65, 42.5, 46.51, 47.4, 49.24, 51.21, 51.44, 51.31, 49.63, 47.65, 44.32, 40.8, 38.13, 34.41, 28.24,
      23.45, 20.72,
    ],
  },
  internalNoiseDb: [
    0.6, -1.7, -3.9, -6.1, -8.2, -9.7, -10.8, -11.9, -12.5, -13.5, -15.4, -17.7, -21.2, -24.2, -25.9, -23.6, -15.8,
    -7.1,
  ],
  source: 'ANSI S3.5-1997 (R2017), Table 3',
  status: 'confirmed',
}

export const octave: Procedure = {
  id: 'octave',
  bandsHz: [250, 500, 1000, 2000, 4000, 8000],
  bandwidthDb: [22.48, 25.48, 28.48, 31.48, 34.48, 37.48],
  speechSpectrumDb: {
    normal: [34.75, 34.27, 25.01, 17.32, 9.33, 1.13],
    raised: [38.98, 40.15, 33.86, 25.32, 16.78, 5.07],
    loud: [41.55, 44.85, 42.16, 34.39, 25.41, 11.39],
    shout: [42.5, 49.24, 51.31, 44.32, 34.41, 20.72],
  },
  internalNoiseDb: [-3.9, -9.7, -12.5, -17.7, -25.9, -7.1],
  source: 'ANSI S3.5-1997 (R2017), Table 4',
  status: 'confirmed',
  reservation: 'bandwidths are those of exact octaves, from memory, unconfirmed; the index does not use them',
}

export const procedures: { readonly [Id in ProcedureId]: Procedure } = {
  'one-third-octave': oneThirdOctave,
  octave,
}
