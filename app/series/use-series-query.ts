'use client'

import { useRouter } from 'next/navigation'
import type { FilterField } from '@/lib/interchange/series-filter.ts'

/** Changes one filter of the address; no value, or an empty one, takes it away. */
export function useSeriesQuery(query: string): (field: FilterField, ...values: readonly string[]) => void {
  const router = useRouter()
  return (field, ...values) => {
    const next = new URLSearchParams(query)
    next.delete(field)
    for (const value of values) if (value !== '') next.append(field, value)
    const text = next.toString()
    router.replace(text === '' ? '/series' : `/series?${text}`, { scroll: false })
  }
}
