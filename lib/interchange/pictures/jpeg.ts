import { joined } from './joined-bytes.ts'
import { need } from './picture-fault.ts'

/**
 * JPEG as ITU-T T.81 (1992) gives it, annex B. Read strictly and written anew from the segments that a picture is drawn
 * from: frame, tables, scans. All application segments and comments are left out (Exif, maker notes, thumbnails, places,
 * profiles), and one JFIF header that says nothing but the colour space stands in their place. What lies inside the
 * compressed scans is not unpacked here.
 */

export const jpegSignature = [0xff, 0xd8, 0xff] as const

export interface CleanJpeg {
  readonly width: number
  readonly height: number
  readonly bytes: Uint8Array
}

/** JFIF 1.01 (ITU-T T.871), square pixels, no thumbnail: grey, or Y, Cb and Cr. */
const jfif = [0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0] as const

/** Scans of one picture: a progressive one has some ten; each of hundreds would be drawn over the whole anew. */
const mostScans = 32
const mostSegments = 200

const marker = { start: 0xd8, end: 0xd9, scan: 0xda, quantisation: 0xdb, interval: 0xdd, huffman: 0xc4 } as const
/** Baseline, extended and progressive, all Huffman-coded. */
const frames = [0xc0, 0xc1, 0xc2]
const isRestart = (code: number): boolean => code >= 0xd0 && code <= 0xd7
const isSkipped = (code: number): boolean => (code >= 0xe0 && code <= 0xef) || code === 0xfe

/** @throws UncleanPicture */
export function cleanJpeg(bytes: Uint8Array): CleanJpeg {
  const reading = new Reading(bytes)
  return reading.whole()
}

interface Frame {
  readonly width: number
  readonly height: number
  readonly components: readonly number[]
}

class Reading {
  readonly #bytes: Uint8Array
  readonly #kept: Uint8Array[] = [new Uint8Array([0xff, marker.start, ...jfif])]
  #at = 2
  #frame: Frame | undefined
  #scans = 0
  #restartInterval = 0
  /** an Adobe segment that says that the three components are red, green and blue */
  #isRgb = false

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes
  }

  whole(): CleanJpeg {
    for (let count = 0; ; count++) {
      need(count < mostSegments, 'unsupported-sort')
      const code = this.#nextMarker()
      if (code === marker.end) break
      this.#segment(code, this.#body())
    }
    need(this.#at === this.#bytes.length, 'trailing-data')
    need(this.#frame !== undefined && this.#scans > 0, 'damaged')
    need(!this.#isRgb || this.#frame.components.length === 1, 'unsupported-sort')
    const { width, height } = this.#frame
    return { width, height, bytes: joined([...this.#kept, new Uint8Array([0xff, marker.end])]) }
  }

  #byte(): number {
    const byte = this.#bytes[this.#at]
    need(byte !== undefined, 'cut-short')
    this.#at += 1
    return byte
  }

  /** Bytes of 255 may stand before a marker to fill. */
  #nextMarker(): number {
    need(this.#byte() === 0xff, 'damaged')
    for (;;) {
      const code = this.#byte()
      if (code !== 0xff) return code
    }
  }

  #body(): Uint8Array {
    const length = this.#byte() * 256 + this.#byte()
    need(length >= 2, 'damaged')
    const end = this.#at + length - 2
    need(end <= this.#bytes.length, 'cut-short')
    const body = this.#bytes.subarray(this.#at, end)
    this.#at = end
    return body
  }

  #segment(code: number, body: Uint8Array): void {
    if (isSkipped(code)) {
      this.#isRgb ||= saysRgb(code, body)
      return
    }
    if (code === marker.quantisation) refuseBadQuantisation(body)
    else if (code === marker.huffman) refuseBadHuffman(body)
    else if (code === marker.interval) this.#takeInterval(body)
    else if (frames.includes(code)) this.#takeFrame(body)
    else if (code === marker.scan) return this.#takeScan(body)
    else need(false, code < 0xc0 || isRestart(code) || code === marker.start ? 'damaged' : 'unsupported-sort')
    this.#keep(code, body)
  }

  #keep(code: number, body: Uint8Array): void {
    const length = body.length + 2
    this.#kept.push(new Uint8Array([0xff, code, length >> 8, length & 0xff]), body)
  }

  #takeInterval(body: Uint8Array): void {
    need(body.length === 2, 'damaged')
    this.#restartInterval = (body[0] as number) * 256 + (body[1] as number)
  }

  #takeFrame(body: Uint8Array): void {
    need(this.#frame === undefined && body.length >= 6, 'damaged')
    const [precision, h1, h0, w1, w0, count] = body as unknown as readonly [
      number,
      number,
      number,
      number,
      number,
      number,
    ]
    need(precision === 8 && (count === 1 || count === 3), 'unsupported-sort')
    need(body.length === 6 + 3 * count, 'damaged')
    const [width, height] = [w1 * 256 + w0, h1 * 256 + h0]
    // A height of 0 would be told after the first scan, which nobody writes.
    need(width > 0 && height > 0, 'damaged')
    const components: number[] = []
    for (let at = 6; at < body.length; at += 3) {
      const [id, sampling, table] = [body[at], body[at + 1], body[at + 2]] as [number, number, number]
      need(isSampling(sampling >> 4) && isSampling(sampling & 15) && table <= 3 && !components.includes(id), 'damaged')
      components.push(id)
    }
    this.#frame = { width, height, components }
  }

  #takeScan(body: Uint8Array): void {
    const count = body[0] ?? 0
    need(this.#frame !== undefined && count >= 1 && count <= this.#frame.components.length, 'damaged')
    need(body.length === 4 + 2 * count, 'damaged')
    for (let at = 1; at <= 2 * count; at += 2) need(this.#frame.components.includes(body[at] as number), 'damaged')
    this.#scans += 1
    need(this.#scans <= mostScans, 'unsupported-sort')
    this.#keep(marker.scan, body)
    this.#kept.push(this.#compressed())
  }

  /** Up to the next marker that is no restart; a byte of 255 in the data is followed by 0. */
  #compressed(): Uint8Array {
    const start = this.#at
    let restarts = 0
    for (;;) {
      const next = this.#bytes.indexOf(0xff, this.#at)
      need(next >= 0 && next + 1 < this.#bytes.length, 'cut-short')
      const code = this.#bytes[next + 1] as number
      if (code !== 0 && !isRestart(code)) {
        need(next > start, 'damaged')
        this.#at = next
        return this.#bytes.subarray(start, next)
      }
      if (isRestart(code)) {
        need(this.#restartInterval > 0 && code - 0xd0 === restarts % 8, 'damaged')
        restarts += 1
      }
      this.#at = next + 2
    }
  }
}

const isSampling = (factor: number): boolean => factor >= 1 && factor <= 4

/** Adobe's segment (APP14, in Adobe Technical Note 5116): the last byte is 0 where nothing was transformed. */
const saysRgb = (code: number, body: Uint8Array): boolean =>
  code === 0xee && String.fromCharCode(...body.subarray(0, 5)) === 'Adobe' && body.length >= 12 && body[11] === 0

/** Each table fills what its first byte says (B.2.4.1), and nothing stands behind the last. */
function refuseBadQuantisation(body: Uint8Array): void {
  let at = 0
  while (at < body.length) {
    const [precision, id] = [(body[at] as number) >> 4, (body[at] as number) & 15]
    need(precision <= 1 && id <= 3, 'damaged')
    at += 1 + 64 * (precision + 1)
  }
  need(at === body.length && at > 0, 'damaged')
}

/** Each table has as many values as its 16 counts say (B.2.4.2). */
function refuseBadHuffman(body: Uint8Array): void {
  let at = 0
  while (at < body.length) {
    const [kind, id] = [(body[at] as number) >> 4, (body[at] as number) & 15]
    need(kind <= 1 && id <= 3 && at + 17 <= body.length, 'damaged')
    const values = body.subarray(at + 1, at + 17).reduce((sum, count) => sum + count, 0)
    need(values <= 256, 'damaged')
    at += 17 + values
  }
  need(at === body.length && at > 0, 'damaged')
}
