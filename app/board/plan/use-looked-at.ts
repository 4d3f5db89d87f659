'use client'

import { useState } from 'react'
import type { DeviceOption } from '@/lib/devices/classes.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import { type CaseForecast, optionKey, plannedOption } from './case-forecast.ts'

export interface LookedAt {
  readonly key: string | undefined
  /** as the ear was found, and with what is assumed */
  readonly before: EarOption | undefined
  readonly after: EarOption | undefined
  /** not the planned option */
  readonly isOther: boolean
  readonly lookAt: (option: EarOption) => void
  readonly lookAtOption: (option: DeviceOption) => void
  readonly backToPlan: () => void
}

/** Which option the pane shows: the planned one, until somebody looks at another. */
export function useLookedAt(found: CaseForecast, changed: CaseForecast): LookedAt {
  const [chosen, setChosen] = useState<string>()
  const planned = found.plan && plannedOption(found.plan, found.options)
  const plannedKey = planned && optionKey(planned)
  const key = named(found.options, chosen) === undefined ? plannedKey : chosen
  return {
    key,
    before: named(found.options, key),
    after: named(changed.options, key),
    isOther: key !== plannedKey,
    lookAt: (option) => setChosen(optionKey(option)),
    lookAtOption: (wanted) => {
      const option = plannedOption(wanted, found.options)
      setChosen(option && optionKey(option))
    },
    backToPlan: () => setChosen(undefined),
  }
}

const named = (options: readonly EarOption[], key: string | undefined): EarOption | undefined =>
  options.find((option) => optionKey(option) === key)
