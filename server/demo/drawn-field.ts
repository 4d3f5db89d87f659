import { deflateSync } from 'node:zlib'
import { writePng } from '../../lib/interchange/pictures/png.ts'

/** What stands in for a photograph in the demo: a drilled cavity, drawn from ellipses. Nobody's ear. */

type Colour = readonly [red: number, green: number, blue: number]

interface Ellipse {
  readonly x: number
  readonly y: number
  readonly acrossPx: number
  readonly downPx: number
  readonly colour: Colour
}

export const drawnSize = { width: 480, height: 360 } as const

const bone: Colour = [122, 92, 72]
const openCavity: readonly Ellipse[] = [
  { x: 240, y: 180, acrossPx: 210, downPx: 160, colour: [168, 132, 104] },
  { x: 240, y: 180, acrossPx: 188, downPx: 140, colour: [216, 190, 160] },
  { x: 150, y: 130, acrossPx: 66, downPx: 40, colour: [232, 214, 190] },
  { x: 312, y: 128, acrossPx: 62, downPx: 34, colour: [198, 160, 136] },
]
const niche: readonly Ellipse[] = [
  { x: 284, y: 226, acrossPx: 58, downPx: 44, colour: [120, 58, 46] },
  { x: 290, y: 232, acrossPx: 36, downPx: 25, colour: [206, 200, 206] },
  { x: 282, y: 226, acrossPx: 12, downPx: 7, colour: [240, 238, 240] },
]
const stapesHead: readonly Ellipse[] = [
  { x: 196, y: 170, acrossPx: 24, downPx: 20, colour: [110, 66, 54] },
  { x: 196, y: 168, acrossPx: 15, downPx: 12, colour: [246, 236, 216] },
]

/** An open cavity with the head of the stapes, and the niche of the round window once it is drilled. @returns PNG */
export const drawnCavity = ({ nicheOpened }: { readonly nicheOpened: boolean }): Uint8Array =>
  drawn([...openCavity, ...stapesHead, ...(nicheOpened ? niche : [])])

function drawn(shapes: readonly Ellipse[]): Uint8Array {
  const { width, height } = drawnSize
  const rowBytes = 1 + 3 * width
  const rows = new Uint8Array(height * rowBytes)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rows.set(colourAt(shapes, x, y), y * rowBytes + 1 + 3 * x)
  return writePng(width, height, deflateSync(rows, { level: 9 }))
}

const colourAt = (shapes: readonly Ellipse[], x: number, y: number): Colour =>
  shapes.reduce((below, shape) => mixed(below, shape.colour, coverage(shape, x, y)), bone)

/** How much of a pixel a shape covers, 0 to 1: its rim is a pixel or two wide. */
function coverage({ x: middleX, y: middleY, acrossPx, downPx }: Ellipse, x: number, y: number): number {
  const distance = Math.hypot((x - middleX) / acrossPx, (y - middleY) / downPx)
  return Math.min(1, Math.max(0, 0.5 + (1 - distance) * Math.min(acrossPx, downPx)))
}

const mixed = (below: Colour, above: Colour, share: number): Colour =>
  below.map((value, index) => Math.round(value + share * ((above[index] as number) - value))) as unknown as Colour
