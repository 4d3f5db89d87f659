'use client'

import { useBoard, useMay, useTable } from '@/app/board/board-context.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-steps.ts'
import { moveStepOn, shiftStep } from '@/lib/board/edits/steps.ts'
import type { OperativeStep, StepState } from '@/lib/board/records/operative-step.ts'
import { needsToAnswer, stepFinder } from '@/lib/board/step-needs.ts'
import type { Asking } from './step-dialog.tsx'
import type { StepRights } from './step-item.tsx'

/** What this person may do with each step; a step that goes on before its prerequisites is asked about. */
export function useStepRights(steps: readonly OperativeStep[], onAsk: (asking: Asking) => void) {
  const { record, pen, me } = useBoard()
  const exceptions = useTable('stepExceptions')
  const { steps: labels } = useMessages()
  const may = useMay()
  const say = useSay()
  const move = (step: OperativeStep, to: StepState) => {
    const open = needsToAnswer(step, to, stepFinder(steps), exceptions, me.participant)
    if (open.length > 0) onAsk({ what: 'jump', step, to, open })
    else moveStepOn(record, pen, step, to, labels.reopened)
  }
  return (step: OperativeStep): StepRights => ({
    mayMove: (to) => may.mayMove('steps', step, to),
    onMove: (to) => move(step, to),
    ...(may.mayChange('steps', 'rank', step) && {
      onShift: (by: -1 | 1) => {
        const place = steps.indexOf(step) + 1 + by
        if (place < 1 || place > steps.length) return
        shiftStep(record, step.id, by)
        say(labels.nowNumber(step.title, place))
      },
    }),
    ...(may.mayChange('steps', 'title', step) && { onEdit: () => onAsk({ what: 'edit', step }) }),
    // What somebody answered for stays; it can be left out.
    ...(may.mayRemove('steps', step) &&
      !exceptions.some((exception) => exception.step === step.id || exception.need === step.id) && {
        onRemove: () => onAsk({ what: 'remove', step }),
      }),
  })
}
