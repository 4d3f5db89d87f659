'use client'

import { useMessages } from '@/app/messages/for-forecast.ts'
import { ScreenCard } from '@/app/screen/screen-card.tsx'
import { ForecastView } from './forecast-view.tsx'
import { optionText } from './option-text.ts'
import { useForecast } from './use-forecast.ts'

/** The forecast of the open case for the main screen. */
export function ForecastOnScreen() {
  const { forecast, words } = useMessages()
  const { plan, outcome } = useForecast()
  const aside = outcome.ok ? optionText(outcome.forecast.option, plan?.ear, words) : undefined
  return (
    <ScreenCard kind={forecast.title} aside={aside}>
      <ForecastView outcome={outcome} ear={plan?.ear} scale="screen" />
    </ScreenCard>
  )
}
