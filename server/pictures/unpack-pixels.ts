import { inflate, inflateSync } from 'node:zlib'
import type { PackedPixels } from '../../lib/interchange/pictures/png.ts'

/** Filter types of a row, from 0 (PNG specification, table 15). */
const mostFilter = 4

/** What zlib gives when it is asked for `info`, which its types leave out. */
interface Unpacked {
  readonly buffer: Buffer
  /** bytes of the input that belonged to the stream */
  readonly engine: { readonly bytesWritten: number }
}

const expectedBytes = ({ rows, bytesPerRow }: PackedPixels): number => rows * (bytesPerRow + 1)
const bounded = (pixels: PackedPixels) => ({ maxOutputLength: expectedBytes(pixels), info: true }) as object

/**
 * Whether the packed pixels of a PNG unpack to exactly its rows, and nothing follows them. Away from the event loop, and never
 * beyond the size that its header gives.
 */
export function unpacksToItsRows(pixels: PackedPixels): Promise<boolean> {
  return new Promise((resolve) => {
    inflate(pixels.packed, bounded(pixels), (error, result) => {
      resolve(error === null && isItsRows(pixels, result as unknown as Unpacked))
    })
  })
}

/** The same at once, for a thread that nobody waits for. */
export function unpacksToItsRowsNow(pixels: PackedPixels): boolean {
  try {
    return isItsRows(pixels, inflateSync(pixels.packed, bounded(pixels)) as unknown as Unpacked)
  } catch {
    // Whatever zlib has against the stream: it is not these rows.
    return false
  }
}

function isItsRows(pixels: PackedPixels, { buffer, engine }: Unpacked): boolean {
  if (buffer.length !== expectedBytes(pixels) || engine.bytesWritten !== pixels.packed.length) return false
  const rowBytes = pixels.bytesPerRow + 1
  for (let at = 0; at < buffer.length; at += rowBytes) if ((buffer[at] as number) > mostFilter) return false
  return true
}
