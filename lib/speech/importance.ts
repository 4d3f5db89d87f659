import type { Provenance } from '../audiometry/provenance.ts'
import type { ProcedureId } from './procedures.ts'

/** Speech materials with a band importance function in ANSI S3.5-1997. */
export const speechMaterials = [
  'average-speech',
  'nonsense-syllables',
  'cid-w22',
  'nu6',
  'drt',
  'short-passages',
  'spin',
] as const
export type SpeechMaterial = (typeof speechMaterials)[number]

/** How much each band contributes to understanding a material. The weights of one function sum to 1. */
export interface ImportanceFunction extends Provenance {
  readonly material: SpeechMaterial
  readonly weights: readonly number[]
}

type ImportanceTable = { readonly [Material in SpeechMaterial]: readonly number[] }

/** ANSI S3.5-1997, Table 3 (average speech) and Table B.2. SPIN sums to 0.9999 as printed. */
const oneThirdOctaveWeights: ImportanceTable = {
  'average-speech': [
    0.0083, 0.0095, 0.015, 0.0289, 0.044, 0.0578, 0.0653, 0.0711, 0.0818, 0.0844, 0.0882, 0.0898, 0.0868, 0.0844,
    0.0771, 0.0527, 0.0364, 0.0185,
  ],
  'nonsense-syllables': [
    0, 0, 0.0153, 0.0284, 0.0363, 0.0422, 0.0509, 0.0584, 0.0667, 0.0774, 0.0893, 0.1104, 0.112, 0.0981, 0.0867, 0.0728,
    0.0551, 0,
  ],
  'cid-w22': [
    0.0365, 0.0279, 0.0405, 0.05, 0.053, 0.0518, 0.0514, 0.0575, 0.0717, 0.0873, 0.0902, 0.0938, 0.0928, 0.0678, 0.0498,
    0.0312, 0.0215, 0.0253,
  ],
  nu6: [
    0.0168, 0.013, 0.0211, 0.0344, 0.0517, 0.0737, 0.0658, 0.0644, 0.0664, 0.0802, 0.0987, 0.1171, 0.0932, 0.0783,
    0.0562, 0.0337, 0.0177, 0.0176,
  ],
  drt: [
    0, 0.024, 0.033, 0.039, 0.0571, 0.0691, 0.0781, 0.0751, 0.0781, 0.0811, 0.0961, 0.0901, 0.0781, 0.0691, 0.048,
    0.033, 0.027, 0.024,
  ],
  'short-passages': [
    0.0114, 0.0153, 0.0179, 0.0558, 0.0898, 0.0944, 0.0709, 0.066, 0.0628, 0.0672, 0.0747, 0.0755, 0.082, 0.0808,
    0.0483, 0.0453, 0.0274, 0.0145,
  ],
  spin: [
    0, 0.0255, 0.0256, 0.036, 0.0362, 0.0514, 0.0616, 0.077, 0.0718, 0.0718, 0.1075, 0.0921, 0.1026, 0.0922, 0.0719,
    0.0461, 0.0306, 0,
  ],
}

/** ANSI S3.5-1997, Table 4 (average speech) and Table B.3. */
const octaveWeights: ImportanceTable = {
  'average-speech': [0.0617, 0.1671, 0.2373, 0.2648, 0.2142, 0.0549],
  'nonsense-syllables': [0.0437, 0.1294, 0.2025, 0.3117, 0.2576, 0.0551],
  'cid-w22': [0.1549, 0.1562, 0.2165, 0.2768, 0.1488, 0.0468],
  nu6: [0.0853, 0.1912, 0.211, 0.309, 0.1682, 0.0353],
  drt: [0.096, 0.2043, 0.2343, 0.2643, 0.1501, 0.051],
  'short-passages': [0.1004, 0.2551, 0.196, 0.2322, 0.1744, 0.0419],
  spin: [0.0871, 0.1493, 0.2206, 0.3022, 0.2102, 0.0306],
}

/**
 * The band importance function of a material under a procedure of ANSI S3.5-1997.
 * Three octave cells (NU-6 at 250 Hz and 4 kHz, W-22 at 4 kHz) are the sums of the one-third-octave weights, which is
 * what makes those columns sum to 1; public copies of the printed table do not.
 * Checked by: tests/published/ansi-s3-5-1997.test.ts
 */
export function importanceFunction(procedure: ProcedureId, material: SpeechMaterial): ImportanceFunction {
  if (procedure === 'one-third-octave') {
    const table = material === 'average-speech' ? 'Table 3' : 'Table B.2'
    return {
      material,
      weights: oneThirdOctaveWeights[material],
      source: `ANSI S3.5-1997, ${table}`,
      status: 'confirmed',
    }
  }
  const source = `ANSI S3.5-1997, ${material === 'average-speech' ? 'Table 4' : 'Table B.3'}`
  const weights = octaveWeights[material]
  if (material !== 'nu6' && material !== 'cid-w22') return { material, weights, source, status: 'confirmed' }
  return { material, weights, source, status: 'confirmed', reservation: summedCells[material] }
}

const summedCells = {
  nu6: '250 Hz and 4 kHz are sums of the one-third-octave weights; the printed cells were not seen',
  'cid-w22': '4 kHz is the sum of the one-third-octave weights; the printed cell was not seen',
} as const
