'use client'

import { lazy, Suspense, useCallback, useRef, useState } from 'react'
import { useBoard, useMay, useSingle } from '@/app/board/board-context.tsx'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import { changePlan, openPlan, type PlanPatch } from '@/lib/board/edits/plan.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { KindName } from '@/lib/board/records.ts'
import type { DeviceOption } from '@/lib/devices/classes.ts'
import type { Experience } from '@/lib/forecast/experience.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { asFound, type WhatIf } from './case-forecast.ts'
import type { WhySubject } from './figure-words.ts'
import { ForecastSection, showingForecast } from './forecast-section.tsx'
import { OptionsSection } from './options-section.tsx'
import { PlanForm } from './plan-form.tsx'
import styles from './plan-pane.module.css'
import { PlanSummary } from './plan-summary.tsx'
import { PutButton } from './put-button.tsx'
import { useForecastUnder } from './use-forecast.ts'
import { useLookedAt } from './use-looked-at.ts'

const showingOptions: Showing = { kind: 'options' }

const planKinds: readonly KindName[] = ['plan']

const Frozen = lazy(() => import('./frozen/frozen-section.tsx'))
const Learning = lazy(() => import('./learning/learning-switch.tsx'))
const Records = lazy(() => import('./records-section.tsx'))
const Why = lazy(() => import('./why.tsx'))

/** Plan and forecast of the open case: the plan is edited live, the forecast follows it and what is assumed here. */
export default function PlanPane() {
  const { plan: labels, forecast: words } = useMessages()
  const [whatIf, setWhatIf] = useState(asFound)
  const [experience, setExperience] = useState<Experience>()
  const { found, changed } = useForecastUnder(whatIf, experience)
  const looked = useLookedAt(found, changed)
  const why = useWhy()
  const editing = usePlanEditing(found.plan)
  const onOptionsKey = usePutOnScreenKey(showingOptions)
  const { plan, unaided } = changed
  const { change } = editing
  const open = (option: DeviceOption, next: WhatIf) => {
    setWhatIf(next)
    looked.lookAtOption(option)
  }
  const forecastRef = useRef<HTMLElement>(null)
  const goTo = ({ option }: JumpTarget) => {
    if (option !== undefined) looked.lookAtOption(option)
    forecastRef.current?.focus()
  }
  useJumps(planKinds, goTo)
  const choose = (option: DeviceOption) => {
    change?.(option)
    looked.backToPlan()
  }
  return (
    <Pane title={labels.paneTitle} actions={<PutButton showing={showingForecast} label={words.putOnScreen} />}>
      <div className={styles.parts}>
        <WrongEar plan={plan} />
        {change !== undefined && editing.ear !== undefined ? (
          <PlanForm plan={plan ?? openPlan(editing.ear)} onChange={change} />
        ) : (
          <PlanAsRead plan={plan} />
        )}
        <Suspense>
          <Learning option={looked.before?.option} onLearn={setExperience} />
        </Suspense>
        <ForecastSection
          ref={forecastRef}
          changed={changed}
          looked={looked}
          isAssumed={found !== changed}
          whatIf={whatIf}
          onWhatIf={setWhatIf}
          onWhy={why.ask}
        />
        <Suspense>
          <Frozen onOpen={open} />
        </Suspense>
        {changed.options.length > 0 && (
          <section className={styles.options} aria-label={words.options} {...onOptionsKey}>
            <OptionsSection
              forecast={changed}
              test={unaided}
              lookedAt={looked.key}
              onLook={looked.lookAt}
              onChoose={change === undefined ? undefined : ({ option }) => choose(option)}
              onWhy={why.ask}
              acts={<PutButton showing={showingOptions} label={words.putOptionsOnScreen} />}
            />
          </section>
        )}
        <Suspense>
          <Records option={looked.before} whatIf={whatIf} />
        </Suspense>
      </div>
      {why.dialog}
    </Pane>
  )
}

/** The dialog that gives reasons, loaded when somebody first asks for one. */
function useWhy() {
  const [asked, setAsked] = useState<WhySubject>()
  const [hasAsked, setHasAsked] = useState(false)
  const ask = useCallback((subject: WhySubject) => {
    setHasAsked(true)
    setAsked(subject)
  }, [])
  const dialog = hasAsked && (
    <Suspense>
      <Why subject={asked} onClose={() => setAsked(undefined)} />
    </Suspense>
  )
  return { ask, dialog }
}

interface PlanEditing {
  /** of the plan, or of the case while there is no plan */
  readonly ear: Ear | undefined
  /** absent for those who may not */
  readonly change: ((patch: PlanPatch) => void) | undefined
}

function usePlanEditing(plan: Plan | undefined): PlanEditing {
  const { record, pen } = useBoard()
  const may = useMay()
  const header = useSingle('header')
  const ear = plan?.ear ?? header?.ear
  const change = useCallback(
    (patch: PlanPatch) => {
      if (ear !== undefined) changePlan(record, pen, ear, patch)
    },
    [record, pen, ear],
  )
  const allowed = plan === undefined ? may.mayCreate('plan') : may.mayChange('plan', 'couplingSite', plan)
  return { ear, change: allowed ? change : undefined }
}

function PlanAsRead({ plan }: { plan: Plan | undefined }) {
  const { plan: labels } = useMessages()
  if (plan !== undefined) return <PlanSummary plan={plan} />
  return <EmptyHint title={labels.noPlan}>{labels.noPlanHint}</EmptyHint>
}

/** A plan for another ear than the case is about may be meant, or may be the wrong side. */
function WrongEar({ plan }: { plan: Plan | undefined }) {
  const { plan: labels, words } = useMessages()
  const header = useSingle('header')
  if (plan === undefined || header === undefined || header.ear === plan.ear) return null
  return (
    <p className={styles.alarm} role="alert">
      <StateSign tone="stop">{labels.checkSide}</StateSign>{' '}
      {labels.otherEar(words.earShort[plan.ear], words.earShort[header.ear])}
    </p>
  )
}
