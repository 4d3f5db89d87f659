'use client'

import { useCallback, useState } from 'react'
import { useBoard, useMay, useSingle } from '@/app/board/board-context.tsx'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { changePlan, openPlan, type PlanPatch } from '@/lib/board/edits/plan.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { WhySubject } from './figure-words.ts'
import { ForecastChart } from './forecast-chart.tsx'
import { ForecastView } from './forecast-view.tsx'
import { OptionsTable } from './options-table.tsx'
import { PlanForm } from './plan-form.tsx'
import styles from './plan-pane.module.css'
import { PlanSummary } from './plan-summary.tsx'
import { useForecast } from './use-forecast.ts'
import { WhyDialog } from './why.tsx'

const showing: Showing = { kind: 'forecast' }

/** Plan and forecast of the open case: the plan is edited live, the forecast follows it. */
export default function PlanPane() {
  const { plan: labels, forecast: words } = useMessages()
  const { plan, unaided, outcome, compared } = useForecast()
  const [asked, setAsked] = useState<WhySubject>()
  const editing = usePlanEditing(plan)
  const onKey = usePutOnScreenKey(showing)
  return (
    <Pane title={labels.paneTitle} actions={<PutForecastOnScreen />}>
      <div className={styles.parts} {...onKey}>
        <WrongEar plan={plan} />
        {editing.change !== undefined && editing.ear !== undefined ? (
          <PlanForm plan={plan ?? openPlan(editing.ear)} onChange={editing.change} />
        ) : (
          <PlanAsRead plan={plan} />
        )}
        <section className={styles.forecast} aria-label={words.title}>
          <h3 className={styles.title}>{words.title}</h3>
          <ForecastView
            outcome={outcome}
            ear={plan?.ear}
            scale="pane"
            onWhy={setAsked}
            chart={unaided && outcome.ok && <ForecastChart test={unaided} forecast={outcome.forecast} />}
          />
        </section>
        {compared.length > 0 && (
          <section className={styles.options} aria-label={words.options}>
            <OptionsTable compared={compared} planned={plan ?? {}} onWhy={setAsked} onChoose={editing.change} />
            <p className={styles.note}>{words.optionsOverlap}</p>
          </section>
        )}
      </div>
      <WhyDialog subject={asked} onClose={() => setAsked(undefined)} />
    </Pane>
  )
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

function PutForecastOnScreen() {
  const { forecast } = useMessages()
  const put = usePutOnScreen()
  if (put === undefined) return null
  return (
    <Button tone="quiet" onClick={() => put(showing)} aria-keyshortcuts="s">
      <ScreenIcon /> {forecast.putOnScreen}
    </Button>
  )
}
