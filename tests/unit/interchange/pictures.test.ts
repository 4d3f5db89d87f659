import { deflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { cleanPicture } from '@/lib/interchange/pictures/clean-picture.ts'
import { crc32, writePng } from '@/lib/interchange/pictures/png.ts'
import { unpacksToItsRows } from '@/server/pictures/unpack-pixels.ts'
import {
  bytesOf,
  exif,
  htmlPage,
  jpegMetadata,
  jpegOf,
  jpegSegment,
  pngChunk,
  pngHead,
  pngHeader,
  pngMetadata,
  pngOf,
  secret,
  utf8,
} from '../../fixtures/pictures.ts'

const cleaned = (bytes: Uint8Array) => {
  const cleaning = cleanPicture(bytes)
  if (!cleaning.ok) throw new Error(cleaning.fault)
  return cleaning.picture
}
const faultOf = (bytes: Uint8Array) => {
  const cleaning = cleanPicture(bytes)
  return cleaning.ok ? 'taken' : cleaning.fault
}
const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('latin1')
const withByte = (bytes: Uint8Array, at: number, value: number) =>
  bytes.map((byte, index) => (index === at ? value : byte))
const pixels = pngChunk('IDAT', deflateSync(new Uint8Array(4)))

describe('a PNG', () => {
  it('comes out as it is when there is nothing to leave out', () => {
    const { mediaType, width, height, bytes } = cleaned(pngOf({ width: 30, height: 20 }))
    expect({ mediaType, width, height }).toEqual({ mediaType: 'image/png', width: 30, height: 20 })
    expect(bytes).toEqual(pngOf({ width: 30, height: 20 }))
  })

  it('loses texts, Exif, times, profiles and whatever somebody made up, before and after its pixels', () => {
    for (const parts of [{ before: pngMetadata }, { after: pngMetadata }]) {
      const { bytes } = cleaned(pngOf(parts))
      expect(bytes).toEqual(pngOf())
      expect(text(pngOf(parts))).toContain(secret)
      expect(text(bytes)).not.toContain(secret)
    }
  })

  it('keeps palette and transparency, and joins the parts of its pixels', () => {
    const palette = pngChunk('PLTE', [1, 2, 3, 4, 5, 6])
    const half = deflateSync(new Uint8Array(2))
    const parts = [pngHeader(1, 1, [8, 3, 0]), palette, pngChunk('tRNS', [0, 128])]
    const apart = bytesOf(
      pngHead,
      ...parts,
      pngChunk('IDAT', half.subarray(0, 4)),
      pngChunk('IDAT', half.subarray(4)),
      pngChunk('IEND'),
    )
    expect(cleaned(apart).bytes).toEqual(bytesOf(pngHead, ...parts, pngChunk('IDAT', half), pngChunk('IEND')))
  })

  it.each([
    ['animated', pngOf({ before: [pngChunk('acTL', [0, 0, 0, 1, 0, 0, 0, 0])] }), 'unsupported-sort'],
    ['interlaced', bytesOf(pngHead, pngHeader(1, 1, [8, 2, 1]), pixels, pngChunk('IEND')), 'unsupported-sort'],
    ['of 16 bits', bytesOf(pngHead, pngHeader(1, 1, [16, 2, 0]), pixels, pngChunk('IEND')), 'unsupported-sort'],
    ['with an unknown chunk that is needed', pngOf({ before: [pngChunk('ABCD')] }), 'unsupported-sort'],
    ['too wide', pngOf({ width: 4097, height: 1 }), 'too-many-pixels'],
    ['of no height', bytesOf(pngHead, pngHeader(1, 0), pixels, pngChunk('IEND')), 'damaged'],
    [
      'of a colour type that is none',
      bytesOf(pngHead, pngHeader(1, 1, [8, 5, 0]), pixels, pngChunk('IEND')),
      'damaged',
    ],
    ['without pixels', bytesOf(pngHead, pngHeader(1, 1), pngChunk('IEND')), 'damaged'],
    ['with two headers', pngOf({ before: [pngHeader(6, 4)] }), 'damaged'],
    ['with a palette after its pixels', pngOf({ after: [pngChunk('PLTE', [1, 2, 3])] }), 'damaged'],
    ['of a palette that it lacks', bytesOf(pngHead, pngHeader(1, 1, [8, 3, 0]), pixels, pngChunk('IEND')), 'damaged'],
    ['with pixels in two places', pngOf({ after: [pngChunk('tEXt', utf8('a\0b')), pixels] }), 'damaged'],
    ['with a wrong checksum', withByte(pngOf(), 30, 255), 'damaged'],
    ['with a page behind its end', bytesOf(pngOf(), htmlPage), 'trailing-data'],
    ['with one byte behind its end', bytesOf(pngOf(), [0]), 'trailing-data'],
    [
      'with a chunk longer than the file',
      bytesOf(pngHead, [0x7f, 255, 255, 255], utf8('IHDR'), new Uint8Array(30)),
      'cut-short',
    ],
  ] as const)('%s is refused', (_, bytes, fault) => {
    expect(faultOf(bytes)).toBe(fault)
  })

  it('cut at any byte is refused', () => {
    const whole = pngOf({ before: pngMetadata })
    for (let length = 8; length < whole.length; length++)
      expect([length, faultOf(whole.subarray(0, length))]).toEqual([length, 'cut-short'])
  })

  it('has a checksum of each chunk as the specification computes it', () => {
    // W3C PNG, annex D; the value of "123456789" is the check value of CRC-32/ISO-HDLC in the catalogue of CRC algorithms.
    expect(crc32(utf8('123456789'))).toBe(0xcbf43926)
  })

  it('is written from pixels in a form that is read again', () => {
    expect(writePng(6, 4, deflateSync(new Uint8Array(4 * 19)))).toEqual(
      pngOf({ packed: deflateSync(new Uint8Array(4 * 19)) }),
    )
  })
})

describe('the pixels of a PNG', () => {
  const unpacks = async (bytes: Uint8Array) => {
    const { pixels: packed } = cleaned(bytes)
    return packed !== undefined && unpacksToItsRows(packed)
  }

  it('unpack to its rows', async () => {
    expect(await unpacks(pngOf({ width: 100, height: 50 }))).toBe(true)
  })

  it.each([
    ['too few rows', deflateSync(new Uint8Array(19 * 3))],
    ['a thousand times as many rows: a bomb', deflateSync(new Uint8Array(19 * 4000))],
    ['a filter that is none', deflateSync(new Uint8Array(19 * 4).fill(5))],
    ['something behind them', bytesOf(deflateSync(new Uint8Array(19 * 4)), htmlPage)],
    ['half of them', deflateSync(new Uint8Array(19 * 4)).subarray(0, 8)],
    ['no zlib stream', htmlPage],
  ])('are refused with %s', async (_, packed) => {
    expect(await unpacks(pngOf({ packed }))).toBe(false)
  })
})

describe('a JPEG', () => {
  it('comes out with one plain JFIF header when there is nothing else to leave out', () => {
    const { mediaType, width, height, bytes } = cleaned(jpegOf({ width: 24, height: 17 }))
    expect({ mediaType, width, height }).toEqual({ mediaType: 'image/jpeg', width: 24, height: 17 })
    expect(bytes).toEqual(jpegOf({ width: 24, height: 17, before: jpegMetadata.slice(0, 1) }))
  })

  it('loses Exif, places, thumbnails, profiles and comments, wherever they stand', () => {
    for (const parts of [{ before: jpegMetadata }, { after: jpegMetadata }]) {
      const { bytes } = cleaned(jpegOf(parts))
      expect(bytes).toEqual(jpegOf({ before: jpegMetadata.slice(0, 1) }))
      expect(text(jpegOf(parts))).toContain(secret)
      expect(text(bytes)).not.toContain(secret)
    }
  })

  it('may have bytes that fill, restarts and several scans', () => {
    const interval = jpegSegment(0xdd, [0, 1])
    const second = bytesOf(jpegSegment(0xda, [1, 1, 0, 1, 63, 0]), [0x3f, 0xff, 0xd0, 0x3f, 0xff, 0xd1, 0x3f, 0xff, 0])
    expect(faultOf(jpegOf({ before: [interval], after: [second] }))).toBe('taken')
    const filled = bytesOf([0xff, 0xd8, 0xff, 0xff, 0xff], jpegOf().subarray(3))
    expect(cleaned(filled).bytes).toEqual(cleaned(jpegOf()).bytes)
  })

  const frame = (precision: number, count: number) => [
    precision,
    0,
    8,
    0,
    8,
    count,
    ...[1, 2, 3, 4].slice(0, count).flatMap((id) => [id, 0x11, 0]),
  ]
  const framed = (code: number, data: readonly number[]) =>
    bytesOf([0xff, 0xd8], jpegSegment(code, data), jpegOf().subarray(2))
  it.each([
    ['in colours for print', framed(0xc0, frame(8, 4)), 'unsupported-sort'],
    ['of 12 bits', framed(0xc1, frame(12, 1)), 'unsupported-sort'],
    ['lossless', framed(0xc3, frame(8, 1)), 'unsupported-sort'],
    ['arithmetically coded', framed(0xc9, frame(8, 1)), 'unsupported-sort'],
    [
      'in red, green and blue',
      bytesOf(
        [0xff, 0xd8],
        jpegSegment(0xee, bytesOf(utf8('Adobe'), [0, 100, 0, 0, 0, 0, 0])),
        jpegSegment(0xc0, frame(8, 3)),
        jpegSegment(0xda, [1, 1, 0, 0, 63, 0]),
        [1, 0xff, 0xd9],
      ),
      'unsupported-sort',
    ],
    [
      'of hundreds of scans',
      jpegOf({ after: Array.from({ length: 60 }, () => bytesOf(jpegSegment(0xda, [1, 1, 0, 0, 63, 0]), [1])) }),
      'unsupported-sort',
    ],
    ['with two frames', framed(0xc0, frame(8, 1)), 'damaged'],
    ['of no height', bytesOf([0xff, 0xd8], jpegSegment(0xc0, [8, 0, 0, 0, 8, 1, 1, 0x11, 0]), [0xff, 0xd9]), 'damaged'],
    ['too wide', jpegOf({ width: 4104 }), 'too-many-pixels'],
    ['without a scan', bytesOf([0xff, 0xd8], jpegSegment(0xc0, frame(8, 1)), [0xff, 0xd9]), 'damaged'],
    [
      'with a scan before its frame',
      bytesOf([0xff, 0xd8], jpegSegment(0xda, [1, 1, 0, 0, 63, 0]), [1, 0xff, 0xd9]),
      'damaged',
    ],
    [
      'with words behind a table',
      jpegOf({ before: [jpegSegment(0xdb, bytesOf([0], new Uint8Array(64).fill(1), utf8(secret)))] }),
      'damaged',
    ],
    [
      'with words behind its codes',
      jpegOf({ before: [jpegSegment(0xc4, bytesOf([0, 1], new Uint8Array(15), [0], utf8(secret)))] }),
      'damaged',
    ],
    [
      'with a restart that nobody announced',
      jpegOf({ after: [bytesOf(jpegSegment(0xda, [1, 1, 0, 0, 63, 0]), [1, 0xff, 0xd0, 1])] }),
      'damaged',
    ],
    ['with a page behind its end', bytesOf(jpegOf(), htmlPage), 'trailing-data'],
    ['with another picture behind its end', bytesOf(jpegOf(), jpegOf()), 'trailing-data'],
  ] as const)('%s is refused', (_, bytes, fault) => {
    expect(faultOf(bytes)).toBe(fault)
  })

  it('cut at any byte is refused', () => {
    const whole = jpegOf({ before: jpegMetadata, width: 16 })
    for (let length = 3; length < whole.length; length++)
      expect([length, faultOf(whole.subarray(0, length))]).toEqual([length, 'cut-short'])
  })
})

describe('what is neither', () => {
  it.each([
    ['nothing', new Uint8Array()],
    ['a page', htmlPage],
    ['a moving GIF', utf8('GIF89a......')],
    ['HEIC', bytesOf([0, 0, 0, 24], utf8('ftypheic'), new Uint8Array(40))],
    ['Exif alone', exif],
    ['a drawing with a script', utf8('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>')],
    ['a page before a picture', bytesOf(htmlPage, pngOf())],
  ])('is refused: %s', (_, bytes) => {
    expect(faultOf(bytes)).toBe('unknown-type')
  })
})
