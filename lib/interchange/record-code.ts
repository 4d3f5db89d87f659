import { sha256 } from '@noble/hashes/sha2.js'
import { utf8ToBytes } from '@noble/hashes/utils.js'
import type { HearingTest } from '../board/records/hearing-test.ts'
import type { SpeechTest } from '../board/records/speech-test.ts'
import { type CanonicalValue, canonicalJson } from './canonical-json.ts'

/**
 * The record code: a short fingerprint of what a record says, printed on paper and shown beside the record, so that
 * anybody in the room can see whether the two are the same.
 *
 * Written `XXXX-XXXX-X`: eight characters carry the first 40 bits of a SHA-256, the ninth is a check character.
 * Chance that two different records share a code, for n records: about n² / 2^41. One case of 200 tests: 2e-8; a
 * clinic's 10,000 tests: 5e-5. It tells records apart; it is no seal against somebody who makes a twin on purpose,
 * for which 40 bits are too few.
 */

/** Digits and capitals without I, L, O and U: of each family that looks alike, one member is left. */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const lookAlikes: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1', U: 'V' }
const contentLength = 8
const codeLength = contentLength + 1

/** In the hashed text, so that no two kinds of record and no two versions of this rule can give the same bytes. */
const ruleVersion = 1

/**
 * Code of a hearing test: ear, condition, date, transducers, device, points and repeat, which are what a verification vouches
 * for. Who entered or verified it, its state and the remark beside it leave the code as it is.
 */
export function recordCode(test: HearingTest): string {
  const { ear, condition, performedOn, airTransducer, boneTransducer, device, points, repeatAt1000 } = test
  return codeOf('hearing-test', {
    ear,
    condition,
    performedOn,
    airTransducer,
    boneTransducer,
    device: sameSpelling(device),
    points,
    repeatAt1000,
  })
}

/** Code of a speech test: what was presented to which ear, when, in what condition, and the score or threshold. */
export function speechTestCode(test: SpeechTest): string {
  const { ear, condition, performedOn, material, listName, items, right, speechLevel, noiseLevel, receptionThreshold } =
    test
  return codeOf('speech-test', {
    ear,
    condition,
    performedOn,
    material,
    listName: sameSpelling(listName),
    items,
    right,
    speechLevel,
    noiseLevel,
    receptionThreshold,
  })
}

/** Two spellings that look the same on paper count as the same, and an empty one as none. */
const sameSpelling = (text: string | undefined): string | undefined => text?.trim().normalize('NFC') || undefined

function codeOf(kind: string, content: CanonicalValue): string {
  const hash = sha256(utf8ToBytes(`promontory record code ${ruleVersion}\n${kind}\n${canonicalJson(content)}`))
  const digits = fiveBitDigits(hash)
  return written([...digits, checkDigit(digits)])
}

/** The first eight groups of five bits, most significant first. */
function fiveBitDigits(bytes: Uint8Array): number[] {
  const firstFortyBits = bytes.subarray(0, 5).reduce((sum, byte) => sum * 256 + byte, 0)
  return Array.from(
    { length: contentLength },
    (_, place) => Math.floor(firstFortyBits / 32 ** (contentLength - 1 - place)) % 32,
  )
}

function written(digits: readonly number[]): string {
  const text = digits.map((digit) => alphabet.charAt(digit)).join('')
  return `${text.slice(0, 4)}-${text.slice(4, contentLength)}-${text.slice(contentLength)}`
}

/**
 * Check digit over the field of 32 elements: the digits, each times a power of the field's generator that no other
 * place has, sum to zero together with the check digit, whose power is 0. A single wrong character changes the sum by
 * a product of two elements that are not zero; swapping any two different characters by another. So every one of both
 * is caught, and of random typing 31 in 32.
 * The field is that of polynomials over two elements modulo x^5 + x^2 + 1, which is primitive, so the nine powers differ.
 * Checked by: tests/property/record-code.test.ts, over every wrong character and every swap
 */
const checkDigit = (digits: readonly number[]): number =>
  digits.reduce((sum, digit, place) => sum ^ timesPower(digit, contentLength - place), 0)

/** `digit` times the generator to the power `power`. */
function timesPower(digit: number, power: number): number {
  let product = digit
  for (let step = 0; step < power; step++) product = product < 16 ? product << 1 : (product << 1) ^ 0b100101
  return product
}

export type TypedCode =
  | { readonly ok: true; readonly code: string }
  | { readonly ok: false; readonly problem: 'length'; readonly characters: number; readonly expected: number }
  | { readonly ok: false; readonly problem: 'character'; readonly character: string; readonly position: number }
  | { readonly ok: false; readonly problem: 'check' }

/**
 * Reads a code as a person types it from paper: in any case, with or without spaces, dashes and dots, O for 0, I or L
 * for 1, U for V.
 * @returns the code as `recordCode` writes it, or what is wrong with it; `position` counts from 1, separators left out
 */
export function parseRecordCode(typed: string): TypedCode {
  const characters = [
    ...typed
      .normalize('NFKC')
      .toUpperCase()
      .replace(/[\s\p{Pd}\u2212.·_]/gu, ''),
  ]
  const digits: number[] = []
  for (const [index, character] of characters.entries()) {
    const digit = alphabet.indexOf(lookAlikes[character] ?? character)
    if (digit < 0) return { ok: false, problem: 'character', character, position: index + 1 }
    digits.push(digit)
  }
  if (digits.length !== codeLength)
    return { ok: false, problem: 'length', characters: digits.length, expected: codeLength }
  const content = digits.slice(0, contentLength)
  return checkDigit(content) === digits[contentLength]
    ? { ok: true, code: written(digits) }
    : { ok: false, problem: 'check' }
}
