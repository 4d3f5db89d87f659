import type { Point } from '../board/records/hearing-test.ts'
import { DbHl, hearingLevelRange } from '../units/levels.ts'

export type PointFault =
  | { readonly code: 'not-a-level'; readonly text: string }
  | { readonly code: 'wrong-unit'; readonly unit: string }
  | { readonly code: 'level-out-of-range'; readonly value: number; readonly low: number; readonly high: number }
  | { readonly code: 'no-response-needs-level' }

export type PointReading =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'point'; readonly point: Point }
  | { readonly kind: 'fault'; readonly fault: PointFault }

const number = '[-+]?\\d{1,4}(?:[.,]\\d{1,3})?'
const unit = '(?:\\s*d?b\\s*(\\p{L}*))?'
const heard = new RegExp(`^(${number})${unit}$`, 'iu')
const silentBefore = new RegExp(`^(?:>|nr|no[ -]response(?: at)?)\\s*(${number})${unit}$`, 'iu')
const silentAfter = new RegExp(`^(${number})${unit}\\s*(?:nr|no[ -]response|\\+|[↓↘↙])$`, 'iu')
const silentAlone = /^(?:nr|no[ -]response|>)$/i
const impossible = /^(?:cnt|could[ -]not[ -]test)$/i

/**
 * Reads a threshold as people write it: `45`, `-5`, `42,5`, `45 dB HL`; `NR 110`, `>110`, `110+` for no response at
 * that level; `NR` alone at the audiometer's limit; `CNT` for could not test; nothing for not tested.
 * @param limit dB HL that stands for `NR` alone; without one it is a fault
 */
export function readPoint(text: string, limit?: number): PointReading {
  const plain = text.trim().replaceAll(/[−–]/g, '-')
  if (plain === '') return { kind: 'nothing' }
  if (impossible.test(plain)) return { kind: 'point', point: { kind: 'could-not-test' } }
  if (silentAlone.test(plain))
    return limit === undefined ? faulty({ code: 'no-response-needs-level' }) : silentAt(limit)
  const silent = silentBefore.exec(plain) ?? silentAfter.exec(plain)
  if (silent !== null) return withLevel(silent, (limit) => ({ kind: 'no-response', limit }))
  const level = heard.exec(plain)
  if (level !== null) return withLevel(level, (level) => ({ kind: 'heard', level }))
  return faulty({ code: 'not-a-level', text: excerpt(text) })
}

const silentAt = (limit: number): PointReading =>
  withLevel([String(limit), String(limit)], (limit) => ({ kind: 'no-response', limit }))

function withLevel(parts: readonly (string | undefined)[], make: (level: DbHl) => Point): PointReading {
  const [, digits = '', unitName = ''] = parts
  if (unitName !== '' && unitName.toLowerCase() !== 'hl') return faulty({ code: 'wrong-unit', unit: `dB ${unitName}` })
  const value = Number(digits.replace(',', '.')) + 0 // no negative zero
  const level = DbHl.safeParse(value)
  return level.success
    ? { kind: 'point', point: make(level.data) }
    : faulty({ code: 'level-out-of-range', value, ...hearingLevelRange })
}

const faulty = (fault: PointFault): PointReading => ({ kind: 'fault', fault })

/** The beginning of a text that may be long, to be shown in a message. */
export const excerpt = (text: string): string => (text.length <= 40 ? text : `${text.slice(0, 39)}…`)

/** How a point is written so that `readPoint` reads it back. */
export function writePoint(point: Point): string {
  switch (point.kind) {
    case 'heard':
      return String(point.level)
    case 'no-response':
      return `NR ${point.limit}`
    case 'could-not-test':
      return 'CNT'
    default:
      return point satisfies never
  }
}
