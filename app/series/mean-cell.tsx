'use client'

import { useMessages } from '@/app/messages/for-series.ts'
import type { SeriesMean } from '@/lib/interchange/series.ts'

/** Mean, interval and n of a series in table cells. */
export function MeanCells({ of: { mean, low, high, n } }: { readonly of: SeriesMean }) {
  const { series } = useMessages()
  return (
    <>
      <td>{mean === null ? series.none : series.number(mean)}</td>
      <td>{low === null || high === null ? series.none : series.limits(low, high)}</td>
      <td>{n}</td>
    </>
  )
}

export function MeanHeads() {
  const { series } = useMessages()
  return (
    <>
      <th scope="col">{series.mean}</th>
      <th scope="col">{series.interval}</th>
      <th scope="col">{series.n}</th>
    </>
  )
}
