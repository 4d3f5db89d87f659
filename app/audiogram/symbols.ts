import type { PointRoute } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

export type SymbolShape =
  | 'circle'
  | 'cross'
  | 'triangle'
  | 'square'
  | 'angle-right-ear'
  | 'angle-left-ear'
  | 'bracket-right-ear'
  | 'bracket-left-ear'
  | 'letter-s'
  | 'letter-a'

/** Where a sign stands to its frequency line, as the viewer sees it. */
export type SymbolSide = 'on-line' | 'left' | 'right'

export interface SymbolChoice {
  readonly shape: SymbolShape
  readonly side: SymbolSide
  /** Distance from the line in symbol radii: masked bone signs stand further out, so that both can be read. */
  readonly offset: number
  /** "No response": down and outwards, to the viewer's left for the right ear. */
  readonly arrow?: 'down-left' | 'down-right'
}

export interface SymbolQuery {
  readonly ear: Ear
  readonly route: PointRoute
  readonly masked: boolean
  readonly noResponse: boolean
}

/**
 * The audiogram sign of a point, drawn as if facing the patient: signs of the right ear stand to the viewer's left.
 * Source: ASHA, Guidelines for audiometric symbols, 1990; ISO 8253-1. Sound field and aided signs carry the same
 * letter for both ears (aided "A" from memory, unconfirmed); standing on their ear's side tells them apart.
 */
export function symbolFor({ ear, route, masked, noResponse }: SymbolQuery): SymbolChoice {
  const place = placeOfSign(ear, route, masked)
  return { shape: shapeFor(ear, route, masked), ...place, ...(noResponse ? { arrow: arrowOf(ear) } : {}) }
}

const arrowOf = (ear: Ear) => (ear === 'right' ? 'down-left' : 'down-right')

function placeOfSign(ear: Ear, route: PointRoute, masked: boolean): Pick<SymbolChoice, 'side' | 'offset'> {
  if (route === 'air') return { side: 'on-line', offset: 0 }
  const side = ear === 'right' ? 'left' : 'right'
  if (route === 'bone') return { side, offset: masked ? 2 : 1.5 }
  return { side, offset: 2 }
}

function shapeFor(ear: Ear, route: PointRoute, masked: boolean): SymbolShape {
  switch (route) {
    case 'air':
      return ear === 'right' ? (masked ? 'triangle' : 'circle') : masked ? 'square' : 'cross'
    case 'bone':
      return masked ? `bracket-${ear}-ear` : `angle-${ear}-ear`
    case 'sound-field':
      return 'letter-s'
    case 'aided':
      return 'letter-a'
    default:
      return route satisfies never
  }
}

/** Open or closed outline around (0, 0) with radius `r`, as SVG path data; letters are drawn as text. */
export function outlineOf(shape: SymbolShape, r: number): string | undefined {
  const at = (x: number, y: number) => `${round(x * r)} ${round(y * r)}`
  switch (shape) {
    case 'circle':
      return `M${at(-1, 0)}A${at(1, 1)} 0 1 1 ${at(1, 0)}A${at(1, 1)} 0 1 1 ${at(-1, 0)}Z`
    case 'cross':
      return `M${at(-0.95, -0.95)}L${at(0.95, 0.95)}M${at(-0.95, 0.95)}L${at(0.95, -0.95)}`
    case 'triangle':
      return `M${at(0, -1.15)}L${at(1.05, 0.75)}L${at(-1.05, 0.75)}Z`
    case 'square':
      return `M${at(-0.9, -0.9)}L${at(0.9, -0.9)}L${at(0.9, 0.9)}L${at(-0.9, 0.9)}Z`
    case 'angle-right-ear':
      return `M${at(0.45, -0.9)}L${at(-0.45, 0)}L${at(0.45, 0.9)}`
    case 'angle-left-ear':
      return `M${at(-0.45, -0.9)}L${at(0.45, 0)}L${at(-0.45, 0.9)}`
    case 'bracket-right-ear':
      return `M${at(0.4, -1)}L${at(-0.3, -1)}L${at(-0.3, 1)}L${at(0.4, 1)}`
    case 'bracket-left-ear':
      return `M${at(-0.4, -1)}L${at(0.3, -1)}L${at(0.3, 1)}L${at(-0.4, 1)}`
    case 'letter-s':
    case 'letter-a':
      return undefined
    default:
      return shape satisfies never
  }
}

/** The arrow of "no response" from the lower outer corner of a sign with radius `r`. */
export function arrowPath(arrow: 'down-left' | 'down-right', r: number): string {
  const outward = arrow === 'down-left' ? -1 : 1
  const at = (x: number, y: number) => `${round(outward * x * r)} ${round(y * r)}`
  return `M${at(0.75, 0.75)}L${at(2, 2)}M${at(1.15, 2)}L${at(2, 2)}L${at(2, 1.15)}`
}

const round = (value: number) => Math.round(value * 100) / 100
