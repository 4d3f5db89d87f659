'use client'

import { useMemo } from 'react'
import type { Picture } from '@/lib/board/records/picture.ts'
import { useTable } from '../board-context.tsx'

type Timed = Pick<Picture, 'at' | 'id'>

/** The oldest first. */
export const byTime = (a: Timed, b: Timed): number => (a.at === b.at ? (a.id < b.id ? -1 : 1) : a.at < b.at ? -1 : 1)

/** All photographs of the case, the oldest first. */
export function usePictures(): readonly Picture[] {
  const table = useTable('pictures')
  return useMemo(() => table.toSorted(byTime), [table])
}
