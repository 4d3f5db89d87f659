'use client'

import { useMessages } from '@/app/messages/use-messages.ts'
import { ScreenCard } from '@/app/screen/screen-card.tsx'
import { ForecastView } from './forecast-view.tsx'
import { useForecast } from './use-forecast.ts'

/** The forecast of the open case for the main screen. */
export function ForecastOnScreen() {
  const { forecast } = useMessages()
  const { plan, outcome } = useForecast()
  return (
    <ScreenCard kind={forecast.title}>
      <ForecastView outcome={outcome} ear={plan?.ear} scale="screen" />
    </ScreenCard>
  )
}
