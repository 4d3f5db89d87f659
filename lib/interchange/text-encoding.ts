export type TextEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252'

export interface DecodedText {
  readonly text: string
  readonly encoding: TextEncoding
}

/**
 * Reads the bytes of a text file: by its byte order mark, else UTF-16 when every second byte is zero as in Latin text,
 * else UTF-8, and what is not UTF-8 as Windows-1252 (what spreadsheets save as "CSV"). Never throws; the mark itself
 * is not part of the text.
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  const encoding = encodingByMark(bytes) ?? encodingByZeros(bytes) ?? (isUtf8(bytes) ? 'utf-8' : 'windows-1252')
  return { text: new TextDecoder(encoding).decode(bytes), encoding }
}

function encodingByMark([first, second, third]: Uint8Array): TextEncoding | undefined {
  if (first === 0xff && second === 0xfe) return 'utf-16le'
  if (first === 0xfe && second === 0xff) return 'utf-16be'
  if (first === 0xef && second === 0xbb && third === 0xbf) return 'utf-8'
  return undefined
}

function encodingByZeros(bytes: Uint8Array): TextEncoding | undefined {
  const start = bytes.subarray(0, 64)
  if (start.length < 4) return undefined
  const zeros = (odd: 0 | 1) => start.filter((byte, index) => index % 2 === odd && byte === 0).length
  const most = Math.floor(start.length / 2) * 0.8
  if (zeros(1) > most && zeros(0) === 0) return 'utf-16le'
  if (zeros(0) > most && zeros(1) === 0) return 'utf-16be'
  return undefined
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return true
  } catch {
    return false // TextDecoder tells malformed bytes by throwing only
  }
}
