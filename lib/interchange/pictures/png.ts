import { joined } from './joined-bytes.ts'
import { need } from './picture-fault.ts'

/**
 * PNG as "Portable Network Graphics (PNG) Specification", third edition, W3C 2025, gives it. Read strictly and written anew
 * from the chunks that a picture is drawn from (IHDR, PLTE, tRNS, IDAT, IEND); all others are left out: texts, times, Exif,
 * colour profiles, and whatever somebody made up.
 */

export const pngSignature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const

/** The picture written anew, and what its pixels have to unpack to. */
export interface CleanPng {
  readonly width: number
  readonly height: number
  readonly bytes: Uint8Array
  readonly pixels: PackedPixels
}

/** The zlib stream of the pixels (RFC 1950), and the rows that it has to make: each a filter type and then its bytes. */
export interface PackedPixels {
  readonly packed: Uint8Array
  readonly rows: number
  readonly bytesPerRow: number
}

interface Header {
  readonly width: number
  readonly height: number
  readonly colour: number
  readonly bitsPerPixel: number
}

/** Samples a pixel and allowed bit depths of each colour type (table 12 of the specification); 16 bits are not taken. */
const colourTypes: Readonly<Record<number, { readonly samples: number; readonly depths: readonly number[] }>> = {
  0: { samples: 1, depths: [1, 2, 4, 8] },
  2: { samples: 3, depths: [8] },
  3: { samples: 1, depths: [1, 2, 4, 8] },
  4: { samples: 2, depths: [8] },
  6: { samples: 4, depths: [8] },
}
const palette = 3
const movingChunks = ['acTL', 'fcTL', 'fdAT']

/** @throws UncleanPicture */
export function cleanPng(bytes: Uint8Array): CleanPng {
  const chunks = chunksOf(bytes)
  const header = headerOf(chunks[0])
  const kept = chunks.filter(({ type }) => isDrawn(type))
  const packed = joined(kept.filter(({ type }) => type === 'IDAT').map(({ data }) => data))
  refuseDisorder(chunks, header)
  const parts = [
    new Uint8Array(pngSignature),
    ...kept.filter(({ type }) => type !== 'IDAT' && type !== 'IEND').map(chunkBytes),
    chunkBytes({ type: 'IDAT', data: packed }),
    chunkBytes({ type: 'IEND', data: new Uint8Array() }),
  ]
  const { width, height, bitsPerPixel } = header
  return {
    width,
    height,
    bytes: joined(parts),
    pixels: { packed, rows: height, bytesPerRow: Math.ceil((width * bitsPerPixel) / 8) },
  }
}

interface Chunk {
  readonly type: string
  readonly data: Uint8Array
}

function chunksOf(bytes: Uint8Array): readonly Chunk[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const chunks: Chunk[] = []
  let at: number = pngSignature.length
  for (;;) {
    need(at + 12 <= bytes.length, 'cut-short')
    const length = view.getUint32(at)
    need(length <= bytes.length - at - 12, 'cut-short')
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8))
    need(/^[A-Za-z]{4}$/.test(type), 'damaged')
    need(crc32(bytes.subarray(at + 4, at + 8 + length)) === view.getUint32(at + 8 + length), 'damaged')
    chunks.push({ type, data: bytes.subarray(at + 8, at + 8 + length) })
    at += 12 + length
    if (type === 'IEND') break
  }
  need(at === bytes.length, 'trailing-data')
  return chunks
}

function headerOf(chunk: Chunk | undefined): Header {
  need(chunk?.type === 'IHDR' && chunk.data.length === 13, 'damaged')
  const view = new DataView(chunk.data.buffer, chunk.data.byteOffset, 13)
  const [width, height, depth, colour] = [view.getUint32(0), view.getUint32(4), view.getUint8(8), view.getUint8(9)]
  const known = colourTypes[colour]
  need(known !== undefined && width > 0 && height > 0, 'damaged')
  need(view.getUint8(10) === 0 && view.getUint8(11) === 0 && view.getUint8(12) <= 1, 'damaged')
  need(known.depths.includes(depth) && view.getUint8(12) === 0, 'unsupported-sort')
  return { width, height, colour, bitsPerPixel: known.samples * depth }
}

const isDrawn = (type: string): boolean => ['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND'].includes(type)

/** A lower-case first letter says that a picture can be drawn without the chunk. */
const isNeeded = (type: string): boolean => type < 'a'

function refuseDisorder(chunks: readonly Chunk[], header: Header): void {
  const types = chunks.map(({ type }) => type)
  need(!types.some((type) => movingChunks.includes(type)), 'unsupported-sort')
  need(
    types.every((type) => isDrawn(type) || !isNeeded(type)),
    'unsupported-sort',
  )
  for (const once of ['IHDR', 'PLTE', 'tRNS']) need(types.filter((type) => type === once).length <= 1, 'damaged')
  const [first, last] = [types.indexOf('IDAT'), types.lastIndexOf('IDAT')]
  need(first > 0 && types.slice(first, last + 1).every((type) => type === 'IDAT'), 'damaged')
  need(types.indexOf('PLTE') < first && types.indexOf('tRNS') < first && chunks.at(-1)?.data.length === 0, 'damaged')
  const colours = chunks.find(({ type }) => type === 'PLTE')?.data.length
  refuseBadPalette(header, colours)
  refuseBadTransparency(header, chunks.find(({ type }) => type === 'tRNS')?.data.length, colours)
}

function refuseBadPalette({ colour, bitsPerPixel }: Header, length: number | undefined): void {
  need(length !== undefined || colour !== palette, 'damaged')
  if (length === undefined) return
  const most = colour === palette ? 3 * 2 ** bitsPerPixel : 768
  need([2, palette, 6].includes(colour) && length > 0 && length % 3 === 0 && length <= most, 'damaged')
}

function refuseBadTransparency({ colour }: Header, length: number | undefined, colours: number | undefined): void {
  if (length === undefined) return
  if (colour === palette) need(length > 0 && length <= (colours ?? 0) / 3, 'damaged')
  else need((colour === 0 && length === 2) || (colour === 2 && length === 6), 'damaged')
}

function chunkBytes({ type, data }: Chunk): Uint8Array {
  const bytes = new Uint8Array(12 + data.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, data.length)
  for (let index = 0; index < 4; index++) bytes[4 + index] = type.charCodeAt(index)
  bytes.set(data, 8)
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)))
  return bytes
}

const crcTable = Uint32Array.from({ length: 256 }, (_, index) => {
  let value = index
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1
  return value >>> 0
})

/** The checksum of a chunk, over its type and its data (annex D of the specification). */
export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff
  for (const byte of bytes) value = (crcTable[(value ^ byte) & 0xff] as number) ^ (value >>> 8)
  return (value ^ 0xffffffff) >>> 0
}

/** Writes a picture of 8-bit red, green and blue, unpacked rows zlib-packed by the caller. */
export function writePng(width: number, height: number, packed: Uint8Array): Uint8Array {
  const header = new Uint8Array(13)
  const view = new DataView(header.buffer)
  view.setUint32(0, width)
  view.setUint32(4, height)
  header.set([8, 2, 0, 0, 0], 8)
  return joined([
    new Uint8Array(pngSignature),
    chunkBytes({ type: 'IHDR', data: header }),
    chunkBytes({ type: 'IDAT', data: packed }),
    chunkBytes({ type: 'IEND', data: new Uint8Array() }),
  ])
}
