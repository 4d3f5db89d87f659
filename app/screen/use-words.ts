'use client'

import { useMemo } from 'react'
import { useMessages } from '@/app/messages/for-screens.ts'
import { calendarDayOf, clockOf, dayAndClockOf, dayOf } from '@/app/messages/moments.ts'
import type { Trigger } from '@/lib/board/records/contingency.ts'
import { triggerSentence } from '@/lib/board/trigger-sentence.ts'
import { frequencyOf } from './formats.ts'

/** Dates, times, frequencies and triggers in the words of the page's language. */
export function useWords() {
  const { language, decisions } = useMessages()
  return useMemo(
    () => ({
      /** the day of a moment, in the viewer's time zone */
      day: (moment: string) => dayOf(moment),
      clock: (moment: string) => clockOf(moment),
      moment: (moment: string) => dayAndClockOf(moment),
      calendarDay: calendarDayOf,
      frequency: (hz: number) => frequencyOf(hz, language),
      trigger: (trigger: Trigger) => triggerSentence(trigger, decisions.trigger),
    }),
    [language, decisions],
  )
}
