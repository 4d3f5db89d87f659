import { useCallback, useEffect, useMemo, useState } from 'react'
import { useMessages, useSingle, useTable } from '@/app/board/board-context.tsx'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { type CaseMeasures, caseMeasures } from './case-measures.ts'
import { ageOverlay, type Overlay, type OverlayName, speechOverlay } from './overlays.ts'

/** Everything computed from the tests that the chart shows, anew whenever one of them changes. */
export function useCaseMeasures(tests: readonly HearingTest[], shown: readonly HearingTest[]): CaseMeasures {
  const speechTests = useTable('speechTests')
  const header = useSingle('header')
  return useMemo(() => caseMeasures({ tests, speechTests, header, shown }), [tests, speechTests, header, shown])
}

export interface ChosenOverlays {
  readonly chosen: ReadonlySet<OverlayName>
  readonly overlays: Readonly<Record<OverlayName, Overlay | undefined>>
  readonly toggle: (name: OverlayName) => void
}

/** What one person lays over the chart; only what is chosen is computed. */
export function useOverlays(tests: readonly HearingTest[], shown: readonly HearingTest[]): ChosenOverlays {
  const messages = useMessages()
  const header = useSingle('header')
  const plan = useSingle('plan')
  const speechTests = useTable('speechTests')
  const [chosen, setChosen] = useState<ReadonlySet<OverlayName>>(new Set())
  const toggle = useCallback((name: OverlayName) => {
    setChosen((before) =>
      before.has(name) ? new Set([...before].filter((other) => other !== name)) : new Set([...before, name]),
    )
  }, [])
  const forecastOverlay = useForecastOverlay(chosen.has('forecast'))
  const overlays = useMemo(
    () => ({
      age: chosen.has('age') ? ageOverlay(header, messages) : undefined,
      speech: chosen.has('speech') ? speechOverlay(shown, tests, messages) : undefined,
      forecast: forecastOverlay?.(plan, tests, speechTests, messages),
    }),
    [chosen, header, plan, shown, tests, speechTests, messages, forecastOverlay],
  )
  return { chosen, overlays, toggle }
}

type ForecastOverlay = typeof import('./forecast-overlay.ts').forecastOverlay

/** Forecasting is loaded when somebody first wants its band: most people who read an audiogram never do. */
function useForecastOverlay(isWanted: boolean): ForecastOverlay | undefined {
  const [loaded, setLoaded] = useState<{ readonly overlay: ForecastOverlay }>()
  useEffect(() => {
    if (!isWanted || loaded !== undefined) return
    let isStale = false
    import('./forecast-overlay.ts').then(({ forecastOverlay }) => {
      if (!isStale) setLoaded({ overlay: forecastOverlay })
    })
    return () => {
      isStale = true
    }
  }, [isWanted, loaded])
  return isWanted ? loaded?.overlay : undefined
}

/** The bands for a chart of these ears. */
export const bandsFor = ({ overlays }: ChosenOverlays, ears: readonly Ear[]) =>
  Object.values(overlays)
    .flatMap((overlay) => (overlay?.ok ? overlay.bands : []))
    .filter(({ ear }) => ear === undefined || ears.includes(ear))
