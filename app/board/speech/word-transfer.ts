import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { TransferMaterial } from '@/lib/speech/score-transfer.ts'

/** Which words' transfer function a prediction uses. */
export interface WordTransfer {
  readonly material: TransferMaterial
  /** The record does not say that its list is of these words: they stand in for a list whose function is not known. */
  readonly standIn: boolean
}

/** How a list of these words is named in a record. */
const listNames: readonly (readonly [TransferMaterial, RegExp])[] = [
  ['nu6', /\bNU[\s-]*(?:No\.?\s*)?6\b/i],
  ['cid-w22', /\bW[\s-]*22\b/i],
]

/**
 * The transfer function for the words of a record: that of the list it names, or else NU-6 as a stand-in, which any
 * other monosyllables are nearest to (common practice, no source).
 * @returns undefined for what is scored otherwise than by monosyllables: no function stands in for it
 */
export function wordTransferOf({
  material,
  listName,
}: Pick<SpeechTest, 'material' | 'listName'>): WordTransfer | undefined {
  if (material !== 'monosyllables') return undefined
  const named = listNames.find(([, name]) => name.test(listName))
  return named === undefined ? { material: 'nu6', standIn: true } : { material: named[0], standIn: false }
}
