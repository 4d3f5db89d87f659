import { type PictureType, pictureLimits } from '../../board/records/picture.ts'
import { cleanJpeg, jpegSignature } from './jpeg.ts'
import { need, type PictureFault, UncleanPicture } from './picture-fault.ts'
import { cleanPng, type PackedPixels, pngSignature } from './png.ts'

/** A photograph with all that is not needed to draw it left out. */
export interface CleanPicture {
  readonly mediaType: PictureType
  readonly width: number
  readonly height: number
  readonly bytes: Uint8Array
  /** of a PNG: what has to be unpacked to be sure that it is these pixels and nothing else */
  readonly pixels?: PackedPixels
}

export type Cleaning =
  | { readonly ok: true; readonly picture: CleanPicture }
  | { readonly ok: false; readonly fault: PictureFault }

/** Tells PNG and JPEG by their bytes, checks how they are built, and writes them anew without metadata. */
export function cleanPicture(bytes: Uint8Array): Cleaning {
  try {
    const picture = cleaned(bytes)
    need(picture.width <= pictureLimits.sidePx && picture.height <= pictureLimits.sidePx, 'too-many-pixels')
    return { ok: true, picture }
  } catch (error) {
    if (error instanceof UncleanPicture) return { ok: false, fault: error.fault }
    throw error
  }
}

function cleaned(bytes: Uint8Array): CleanPicture {
  if (beginsWith(bytes, pngSignature)) return { mediaType: 'image/png', ...cleanPng(bytes) }
  need(beginsWith(bytes, jpegSignature), 'unknown-type')
  return { mediaType: 'image/jpeg', ...cleanJpeg(bytes) }
}

const beginsWith = (bytes: Uint8Array, signature: readonly number[]): boolean =>
  signature.every((byte, index) => bytes[index] === byte)
