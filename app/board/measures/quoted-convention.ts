import { useState } from 'react'
import { browserText } from '@/app/board/connection/kept-text.ts'
import type { MeasureId } from './measure-row.ts'

/** By whose frequencies, bounds and rounding the numbers of an ear are quoted first. */
export const conventions = ['who', 'biap', 'asha', 'aao'] as const
export type Convention = (typeof conventions)[number]

/**
 * What is quoted first by each convention, in its order. BIAP has no average of its own for bone conduction and gap, so
 * those over the same frequencies stand there; AAO-HNS 1995 grades no ear, so the grade of WHO does.
 */
export const quotedFirst: Readonly<Record<Convention, readonly MeasureId[]>> = {
  who: ['air-who', 'grade-who', 'bone-who', 'gap-who', 'type', 'high'],
  biap: ['air-biap', 'grade-biap', 'bone-who', 'gap-who', 'type', 'high'],
  asha: ['air-asha', 'grade-asha', 'bone-asha', 'gap-asha', 'type', 'high'],
  aao: ['air-aao', 'bone-aao', 'gap-aao', 'type', 'grade-who', 'high'],
}

/** Every measure that is quoted by one convention or another. */
export const conventional: ReadonlySet<MeasureId> = new Set(Object.values(quotedFirst).flat())

const keptUnder = 'measures.convention'

/** One person's own choice, which this browser remembers for all cases. */
export function useConvention(): readonly [Convention, (next: Convention) => void] {
  const [convention, setConvention] = useState<Convention>(remembered)
  const choose = (next: Convention) => {
    setConvention(next)
    browserText.write(keptUnder, next)
  }
  return [convention, choose]
}

const remembered = (): Convention => conventions.find((name) => name === browserText.read(keptUnder)) ?? 'who'
