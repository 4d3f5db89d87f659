'use client'

import { useBoard, useSingle, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-usual-steps.ts'
import { addStep } from '@/lib/board/edits/decisions.ts'
import { addTypicalSteps, moveStepDespite, removeStep, rewordStep } from '@/lib/board/edits/steps.ts'
import type { OperativeStep, StepState } from '@/lib/board/records/operative-step.ts'
import { needsToAnswer, stepFinder } from '@/lib/board/step-needs.ts'
import { JumpQuestion } from './jump-question.tsx'
import { StepWordsForm } from './step-words.tsx'
import styles from './steps-pane.module.css'
import { UsualSteps } from './usual-steps.tsx'

/** What the pane asks before it edits. */
export type Asking =
  | { readonly what: 'add' | 'usual' }
  | { readonly what: 'edit' | 'remove'; readonly step: OperativeStep }
  | Jump

interface Jump {
  readonly what: 'jump'
  readonly step: OperativeStep
  readonly to: StepState
  /** prerequisites that were open when the step was to move */
  readonly open: readonly OperativeStep[]
}

interface StepDialogProps {
  readonly asking: Asking | undefined
  /** all steps, in order */
  readonly steps: readonly OperativeStep[]
  readonly onClose: () => void
}

export function StepDialog({ asking, steps, onClose }: StepDialogProps) {
  const { steps: labels } = useMessages()
  const titles = {
    add: labels.addTitle,
    usual: labels.usualTitle,
    edit: labels.editTitle,
    remove: labels.remove,
    jump: labels.jumpTitle,
  }
  return (
    <Dialog open={asking !== undefined} onClose={onClose} title={asking === undefined ? '' : titles[asking.what]}>
      {asking !== undefined && <Asked asking={asking} steps={steps} onClose={onClose} />}
    </Dialog>
  )
}

function Asked({ asking, steps, onClose }: StepDialogProps & { readonly asking: Asking }) {
  const { record, pen } = useBoard()
  const { steps: labels, usualSteps } = useMessages()
  const plan = useSingle('plan')
  const say = useSay()
  const and = (act: () => void) => {
    act()
    onClose()
  }
  switch (asking.what) {
    case 'add':
      return (
        <StepWordsForm
          steps={steps}
          submit={labels.add}
          onSubmit={(words, needs) => and(() => addStep(record, pen, words, needs))}
        />
      )
    case 'usual':
      return (
        <UsualSteps
          plannedSite={plan?.couplingSite}
          onChoose={(approach) =>
            and(() => say(labels.usualAdded(addTypicalSteps(record, pen, approach, usualSteps).length)))
          }
        />
      )
    case 'edit':
      return (
        <StepWordsForm
          step={asking.step}
          steps={steps}
          submit={labels.save}
          onSubmit={(words, needs) => and(() => rewordStep(record, asking.step.id, { ...words, needs: [...needs] }))}
        />
      )
    case 'jump':
      return <AskedJump jump={asking} steps={steps} onClose={onClose} />
    case 'remove':
      return (
        <div className={styles.ask}>
          <p>{labels.removeAsk(asking.step.title)}</p>
          <div className={styles.bar}>
            <Button tone="stop" onClick={() => and(() => removeStep(record, asking.step.id))}>
              {labels.remove}
            </Button>
            <Button onClick={onClose}>{labels.keep}</Button>
          </div>
        </div>
      )
    default:
      return asking satisfies never
  }
}

/** The question about a jump, as the steps stand while it is asked: others go on marking them. */
function AskedJump({ jump, steps, onClose }: Pick<StepDialogProps, 'steps' | 'onClose'> & { readonly jump: Jump }) {
  const { record, pen, me } = useBoard()
  const exceptions = useTable('stepExceptions')
  const step = steps.find(({ id }) => id === jump.step.id)
  const now = step && needsToAnswer(step, jump.to, stepFinder(steps), exceptions, me.participant)
  // Answered by somebody else, or done meanwhile: what is being typed about it is still recorded.
  const open = now === undefined || now.length === 0 ? jump.open : now
  const goOn = (reason: string) => {
    const needs = open.flatMap(({ id }) => (steps.some((other) => other.id === id) ? [id] : []))
    if (step !== undefined) moveStepDespite(record, pen, step, jump.to, needs, reason)
    onClose()
  }
  return <JumpQuestion step={jump.step} open={open} onReason={goOn} onBack={onClose} />
}
