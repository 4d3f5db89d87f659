import { PictureType, pictureLimits } from '@/lib/board/records/picture.ts'

/** A picture small enough to be sent: a JPEG that holds nothing but what is seen. */
export interface PreparedPicture {
  readonly blob: Blob
  readonly width: number
  readonly height: number
}

/** Why a file cannot be made one; the words are in app/messages. */
export type PictureFileFault = 'empty' | 'too-large' | 'heic' | 'other-type' | 'broken' | 'not-small-enough'

/** Reading a larger file may take more memory than a phone gives a page. Cameras of phones write 3 to 15 MB. */
export const mostFileBytes = 30 * 1024 * 1024

/** A field of this width shows more than a projector of Full HD can. */
const firstSidePx = 2048
const leastSidePx = 480
const qualities = [0.88, 0.8, 0.7]
const shrink = 0.75

/**
 * Reads a picture, turns it as its camera was held, and draws it anew as a JPEG of at most a megabyte: first with less quality,
 * then smaller. What the file says beside its pixels is not drawn.
 */
export async function preparePicture(file: Blob, name = ''): Promise<PreparedPicture | PictureFileFault> {
  const fault = faultOfFile(file, name)
  if (fault !== undefined) return fault
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => undefined)
  if (bitmap === undefined) return 'broken'
  try {
    return await smallEnough(bitmap)
  } finally {
    bitmap.close()
  }
}

/** What the file's size, type and name tell before it is read. */
export function faultOfFile(
  { size, type }: Pick<Blob, 'size' | 'type'>,
  name: string,
): Exclude<PictureFileFault, 'broken' | 'not-small-enough'> | undefined {
  if (size === 0) return 'empty'
  if (/^image\/hei[cf]/.test(type) || /\.hei[cf]$/i.test(name)) return 'heic'
  if (!PictureType.safeParse(type).success) return 'other-type'
  return size > mostFileBytes ? 'too-large' : undefined
}

async function smallEnough(bitmap: ImageBitmap): Promise<PreparedPicture | 'not-small-enough'> {
  const longest = Math.max(bitmap.width, bitmap.height)
  for (let side = Math.min(firstSidePx, longest); ; side *= shrink) {
    const canvas = drawn(bitmap, side / longest)
    for (const quality of qualities) {
      const blob = await asJpeg(canvas, quality)
      if (blob !== null && blob.size <= pictureLimits.bytes) return { blob, width: canvas.width, height: canvas.height }
    }
    if (side < leastSidePx) return 'not-small-enough'
  }
}

function drawn(bitmap: ImageBitmap, scale: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(bitmap.width * scale))
  canvas.height = Math.max(1, Math.round(bitmap.height * scale))
  const pen = canvas.getContext('2d')
  if (pen === null) throw new TypeError('this browser draws no pictures')
  pen.imageSmoothingQuality = 'high'
  // What is see-through in a PNG would be black in a JPEG.
  pen.fillStyle = 'white'
  pen.fillRect(0, 0, canvas.width, canvas.height)
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height)
  return canvas
}

const asJpeg = (canvas: HTMLCanvasElement, quality: number): Promise<Blob | null> =>
  new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality))
