import { useSyncExternalStore } from 'react'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'

/** What the audiogram and the panes beside it tell one another about places on the chart. */
export interface ChartPick {
  /** whether somebody waits for a place: the next click on the chart is an answer and not a pin */
  readonly picking: boolean
  /** the place that somebody wants to see */
  readonly highlighted: ChartPlace | undefined
}

/** One conversation between a chart and the panes; each change makes a new snapshot. */
export function createChartPick() {
  let state: ChartPick = { picking: false, highlighted: undefined }
  let receive: ((place: ChartPlace) => void) | undefined
  const listeners = new Set<() => void>()
  const change = (next: ChartPick) => {
    state = next
    for (const notify of listeners) notify()
  }
  const stop = () => {
    receive = undefined
    if (state.picking) change({ ...state, picking: false })
  }
  return {
    getSnapshot: (): ChartPick => state,
    subscribe: (notify: () => void) => {
      listeners.add(notify)
      return () => {
        listeners.delete(notify)
      }
    },
    /** Waits for the next place; whoever waited before is forgotten. */
    startPick: (onPlace: (place: ChartPlace) => void): void => {
      receive = onPlace
      change({ ...state, picking: true })
    },
    /** The chart offers a place. True when somebody waited for it and has taken it. */
    offerPick: (place: ChartPlace): boolean => {
      const taker = receive
      stop()
      taker?.(place)
      return taker !== undefined
    },
    stopPick: stop,
    /** Shows a place; each call is a wish of its own, also for the place that is shown already. */
    highlight: (place: ChartPlace | undefined): void => change({ ...state, highlighted: place && { ...place } }),
  }
}

const page = createChartPick()
export const { startPick, stopPick, offerPick, highlight } = page

const nothing: ChartPick = { picking: false, highlighted: undefined }
export const useChartPick = (): ChartPick => useSyncExternalStore(page.subscribe, page.getSnapshot, () => nothing)
