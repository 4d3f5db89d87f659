import { outsideDomain, requireWithin } from '../audiometry/domain.ts'
import type { Provenance } from '../audiometry/provenance.ts'

/** Word tests with a transfer function from index to score. */
export type TransferMaterial = 'nu6' | 'cid-w22'

/** Constants of S = (1 - 10^(-SII P / Q))^N. */
export interface TransferFunction extends Provenance {
  readonly material: TransferMaterial
  readonly q: number
  readonly n: number
}

export const transferFunctions: { readonly [Material in TransferMaterial]: TransferFunction } = {
  nu6: {
    material: 'nu6',
    q: 0.404,
    n: 3.334,
    source: 'Studebaker, Sherbecoe and Gilmore, J Speech Hear Res 36:799-807, 1993',
    status: 'from memory, unconfirmed',
  },
  'cid-w22': {
    material: 'cid-w22',
    q: 0.283,
    n: 4.057,
    source: 'Studebaker and Sherbecoe, J Speech Hear Res 34:427-438, 1991',
    status: 'from memory, unconfirmed',
  },
}

/**
 * Word score that a speech intelligibility index leads one to expect, as a proportion.
 *
 * The index must have been weighed with the importance function of the same material. Group data of normal-hearing
 * listeners: a cochlea that distorts scores lower at the same index.
 * @param index speech intelligibility index, 0 to 1
 * @param proficiency talker and listener together, above 0 to 1; 1 is a practised pair
 * @throws RangeError naming the argument, its value and its domain
 * Source: `transferFunctions`. Checked by: tests/published/studebaker-transfer.test.ts
 */
export function expectedScore(material: TransferMaterial, index: number, proficiency = 1): number {
  requireWithin('index', index, 0, 1, '(a proportion)')
  requireProficiency(proficiency)
  const { q, n } = transferFunctions[material]
  return (1 - 10 ** ((-index * proficiency) / q)) ** n
}

/**
 * The index that leads one to expect a score: the inverse of `expectedScore`.
 * @param score proportion, 0 to the score expected at an index of 1
 * @throws RangeError naming the argument, its value and its domain
 * Source: `transferFunctions`. Checked by: tests/property/speech-index.test.ts
 */
export function indexForScore(material: TransferMaterial, score: number, proficiency = 1): number {
  const best = expectedScore(material, 1, proficiency)
  requireWithin('score', score, 0, best, '(the score expected at an index of 1)')
  const { q, n } = transferFunctions[material]
  return Math.min(1, (-Math.log10(1 - score ** (1 / n)) * q) / proficiency)
}

function requireProficiency(proficiency: number): void {
  if (proficiency > 0 && proficiency <= 1) return
  throw outsideDomain('proficiency', proficiency, 'above 0 and at most 1')
}
