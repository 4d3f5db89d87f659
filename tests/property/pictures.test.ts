import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cleanPicture } from '@/lib/interchange/pictures/clean-picture.ts'
import { bytesOf, jpegMetadata, jpegOf, jpegSegment, pngChunk, pngMetadata, pngOf, utf8 } from '../fixtures/pictures.ts'

const pngTypes = (bytes: Uint8Array): string[] => {
  const types: string[] = []
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  for (let at = 8; at < bytes.length; at += 12 + view.getUint32(at))
    types.push(Buffer.from(bytes.subarray(at + 4, at + 8)).toString('latin1'))
  return types
}

/** Codes of all markers outside compressed data. */
const jpegCodes = (bytes: Uint8Array): number[] => {
  const codes: number[] = []
  for (let at = 2; at < bytes.length; ) {
    const code = bytes[at + 1] as number
    codes.push(code)
    if (code === 0xd9) break
    at += 2 + (bytes[at + 2] as number) * 256 + (bytes[at + 3] as number)
    if (code === 0xda)
      while (
        bytes[at] !== 0xff ||
        [0, 0xd0, 0xd1, 0xd2, 0xd3, 0xd4, 0xd5, 0xd6, 0xd7].includes(bytes[at + 1] as number)
      )
        at++
  }
  return codes
}

/** Whatever comes in: nothing, or a picture without metadata that cleaning leaves as it is. */
function expectClean(bytes: Uint8Array): void {
  const cleaning = cleanPicture(bytes)
  if (!cleaning.ok) return
  const { picture } = cleaning
  if (picture.mediaType === 'image/png') {
    for (const type of pngTypes(picture.bytes)) expect(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']).toContain(type)
  } else {
    const codes = jpegCodes(picture.bytes)
    expect(codes.filter((code) => code >= 0xe0)).toEqual([0xe0])
    expect(codes.at(-1)).toBe(0xd9)
  }
  expect(cleanPicture(picture.bytes)).toEqual(cleaning)
}

const whole = [
  pngOf(),
  pngOf({ before: pngMetadata }),
  pngOf({ after: pngMetadata }),
  jpegOf({ width: 40, height: 24 }),
  jpegOf({ before: jpegMetadata }),
  jpegOf({ after: jpegMetadata }),
]
const anyBytes = fc.uint8Array({ maxLength: 300 })

describe('a picture of anybody', () => {
  it('never breaks the reading: any bytes, behind either signature', () => {
    const heads = fc.constantFrom([], [137, 80, 78, 71, 13, 10, 26, 10], [0xff, 0xd8, 0xff], [0xff, 0xd8])
    fc.assert(
      fc.property(heads, anyBytes, (head, bytes) => expectClean(bytesOf(head, bytes))),
      { numRuns: 3000 },
    )
  })

  it('never breaks the reading: bytes changed, put in, taken out', () => {
    const change = fc.record({ at: fc.nat(2000), drop: fc.nat(6), put: fc.uint8Array({ maxLength: 6 }) })
    fc.assert(
      fc.property(fc.constantFrom(...whole), fc.array(change, { minLength: 1, maxLength: 4 }), (picture, changes) => {
        let bytes = picture
        for (const { at, drop, put } of changes) {
          const start = at % (bytes.length + 1)
          bytes = bytesOf(bytes.subarray(0, start), put, bytes.subarray(start + drop))
        }
        expectClean(bytes)
      }),
      { numRuns: 4000 },
    )
  })

  it('loses words in any chunk that is not drawn, and any segment of an application', () => {
    const word = fc.stringMatching(/^[a-z]{12,40}$/)
    const type = fc
      .stringMatching(/^[a-z][A-Za-z]{3}$/)
      .filter((name) => !['tRNS', 'acTL', 'fcTL', 'fdAT'].includes(name))
    const code = fc.oneof(fc.integer({ min: 0xe0, max: 0xef }), fc.constant(0xfe))
    fc.assert(
      fc.property(word, type, code, (words, name, marker) => {
        for (const bytes of [
          pngOf({ before: [pngChunk(name, utf8(words))] }),
          jpegOf({ before: [jpegSegment(marker, utf8(words))] }),
        ]) {
          const cleaning = cleanPicture(bytes)
          expect(cleaning.ok && Buffer.from(cleaning.picture.bytes).toString('latin1')).not.toContain(words)
          expect(cleaning.ok).toBe(true)
        }
      }),
    )
  })
})
