import * as z from 'zod/mini'
import { outsideDomain } from '../audiometry/domain.ts'
import { Drive } from '../devices/drives.ts'
import { EarChange } from '../devices/ear-changes.ts'

/** Range of the network, Hz; it is trusted in a narrower one. */
export const lowestHz = 100
export const highestHz = 10_000

/** @throws RangeError unless the network may be asked at this frequency */
export function requireNetworkFrequency(frequencyHz: number): number {
  if (frequencyHz >= lowestHz && frequencyHz <= highestHz) return frequencyHz
  throw outsideDomain('frequencyHz', frequencyHz, `from ${lowestHz} to ${highestHz} Hz`)
}

const EarChanges = z.array(EarChange)

/** Lists and drives never change, and every frequency asks again. */
const sound = new WeakSet<object>()

/** @throws RangeError naming the change, its field and its domain */
export function requireChanges(changes: readonly EarChange[]): void {
  if (!sound.has(changes)) requireShape('changes', changes, EarChanges)
}

/** @throws RangeError naming the field and its domain */
export function requireDrive(drive: Drive): void {
  if (!sound.has(drive)) requireShape('drive', drive, Drive)
}

function requireShape(argument: string, value: object, schema: z.ZodMiniType): void {
  const issue = schema.safeParse(value).error?.issues[0]
  if (issue === undefined) {
    sound.add(value)
    return
  }
  const place = issue.path.reduce((found: unknown, key) => Object(found)[key], value)
  throw outsideDomain([argument, ...issue.path].join('.'), place, `in its domain: ${issue.message}`)
}
