'use client'

import { type KeyboardEvent, lazy, type Ref, Suspense, useRef } from 'react'
import { isPutOnScreenKey, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { changesNothing } from '@/lib/forecast/loss-by-frequency.ts'
import type { CaseForecast, WhatIf } from './case-forecast.ts'
import type { OnWhy } from './figure.tsx'
import { ForecastChart } from './forecast-chart.tsx'
import { ForecastView } from './forecast-view.tsx'
import type { Freezing } from './frozen/freeze-form.tsx'
import styles from './plan-pane.module.css'
import type { LookedAt } from './use-looked-at.ts'
import { WhatIfSection } from './what-if/what-if-section.tsx'

const FreezeForm = lazy(() => import('./frozen/freeze-form.tsx'))

export const showingForecast: Showing = { kind: 'forecast' }

interface ForecastSectionProps {
  /** with what is assumed */
  readonly changed: CaseForecast
  readonly looked: LookedAt
  readonly isAssumed: boolean
  readonly whatIf: WhatIf
  readonly onWhatIf: (whatIf: WhatIf) => void
  readonly onWhy: OnWhy
  /** takes the focus when somebody is sent here */
  readonly ref?: Ref<HTMLElement>
}

/** The forecast of the option that is shown, and under it what may become of the ear. */
export function ForecastSection({ changed, looked, isAssumed, whatIf, onWhatIf, onWhy, ref }: ForecastSectionProps) {
  const { forecast: words } = useMessages()
  const { plan, unaided } = changed
  const outcome = looked.after?.outcome ?? changed.outcome
  const before = looked.before?.outcome
  return (
    <section
      ref={ref}
      tabIndex={-1}
      className={styles.forecast}
      aria-label={words.title}
      {...usePutOnScreenKey(showingForecast)}
    >
      <h3 className={styles.title}>{words.title}</h3>
      <NotAsPlanned isAssumed={isAssumed} isOther={looked.isOther} onBack={looked.backToPlan} />
      <ForecastView
        outcome={outcome}
        ear={plan?.ear}
        scale="pane"
        onWhy={onWhy}
        chart={
          unaided &&
          outcome.ok && (
            <ForecastChart
              test={unaided}
              forecast={outcome.forecast}
              before={isAssumed && before?.ok ? before.forecast : undefined}
            />
          )
        }
        whatIf={<WhatIfPart changed={changed} looked={looked} whatIf={whatIf} onWhatIf={onWhatIf} />}
      />
    </section>
  )
}

type WhatIfPartProps = Pick<ForecastSectionProps, 'changed' | 'looked' | 'whatIf' | 'onWhatIf'>

/** Nothing can become of a forecast that there is not. */
function WhatIfPart({ changed, looked, whatIf, onWhatIf }: WhatIfPartProps) {
  const { whatIf: words } = useMessages()
  const { before, after } = looked
  const freezing = useRef<Freezing>(null)
  // On the main screen stands what is in the record: a scenario is frozen on its way there.
  const onKeyDown = (event: KeyboardEvent) => {
    if (changesNothing(whatIf.scenario) || !isPutOnScreenKey(event)) return
    event.preventDefault()
    event.stopPropagation()
    freezing.current?.freezeAndShow()
  }
  if (before === undefined || after === undefined || !before.outcome.ok) return null
  return (
    <section aria-label={words.title} onKeyDown={onKeyDown}>
      <h4 className={styles.subtitle}>{words.title}</h4>
      <WhatIfSection
        whatIf={whatIf}
        incus={changed.plan?.incus ?? 'not-known'}
        before={before}
        after={after}
        losses={changed.lossAt(after.option.couplingSite)}
        onChange={onWhatIf}
        freeze={
          <Suspense>
            <FreezeForm ref={freezing} option={after} whatIf={whatIf} />
          </Suspense>
        }
      />
    </section>
  )
}

interface NotAsPlannedProps {
  readonly isAssumed: boolean
  readonly isOther: boolean
  readonly onBack: () => void
}

/** Says that the numbers below are not those of the plan as the ear was found. */
function NotAsPlanned({ isAssumed, isOther, onBack }: NotAsPlannedProps) {
  const { forecast, whatIf } = useMessages()
  return (
    <>
      {isAssumed && (
        <p className={styles.assumed}>
          <StateSign tone="accent">{whatIf.under}</StateSign> {whatIf.underNote}
        </p>
      )}
      {isOther && (
        <p className={styles.assumed}>
          <StateSign tone="caution">{forecast.notPlanned}</StateSign>{' '}
          <Button tone="quiet" onClick={onBack}>
            {forecast.backToPlan}
          </Button>
        </p>
      )}
    </>
  )
}
