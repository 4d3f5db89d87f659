'use client'

import { useEffect, useRef } from 'react'
import type { KindName } from '@/lib/board/records.ts'
import { useChartPick } from '../chart-pick.ts'
import { useJumpTarget } from '../jump.ts'
import { type Columns, isShown, type PaneName } from './pane-names.ts'

const paneOfKind: Readonly<Partial<Record<KindName, PaneName>>> = {
  tests: 'hearing',
  speechTests: 'hearing',
  annotations: 'hearing',
  plan: 'plan',
  fitMeasurements: 'plan',
  profiles: 'plan',
  scenarios: 'plan',
  forecasts: 'plan',
  steps: 'steps',
  pictures: 'steps',
  notes: 'decisions',
  contingencies: 'decisions',
  questions: 'floor',
}

interface View {
  readonly chosen: PaneName
  readonly columns: Columns
  readonly bring: (name: PaneName) => void
}

/** True when the pane was hidden and comes forward. */
function bringIfHidden(name: PaneName, { chosen, columns, bring }: View): boolean {
  if (isShown(name, chosen, columns)) return false
  bring(name)
  return true
}

/**
 * Brings a hidden pane forward when something in it is wanted: the record of a jump, the audiogram while a place on it
 * is awaited (and afterwards the pane that asked for it), or a place that somebody wants to see.
 */
export function usePaneCalls(chosen: PaneName, columns: Columns, bring: (name: PaneName) => void): void {
  const target = useJumpTarget()
  const { picking, highlighted } = useChartPick()
  const asker = useRef<PaneName>(undefined)
  const view = useRef({ chosen, columns, bring })
  view.current = { chosen, columns, bring }

  useEffect(() => {
    const name = target && paneOfKind[target.kind]
    if (name !== undefined) bringIfHidden(name, view.current)
  }, [target])
  useEffect(() => {
    if (highlighted !== undefined) bringIfHidden('hearing', view.current)
  }, [highlighted])
  useEffect(() => {
    const { chosen: from } = view.current
    if (picking) asker.current = bringIfHidden('hearing', view.current) ? from : undefined
    else if (asker.current !== undefined) bringIfHidden(asker.current, view.current)
  }, [picking])
}
