'use client'

import { Button } from '@/app/components/button.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-steps.ts'
import { type Approach, approachNames, approachTo, typicalSteps } from '@/lib/board/operative-steps.ts'
import type { CouplingSite } from '@/lib/devices/classes.ts'
import styles from './usual-steps.module.css'

interface UsualStepsProps {
  readonly plannedSite: CouplingSite | undefined
  readonly onChoose: (approach: Approach) => void
}

/** The usual lists, the one that reaches the planned site first, with how sure they are. */
export function UsualSteps({ plannedSite, onChoose }: UsualStepsProps) {
  const { steps } = useMessages()
  const suggested = plannedSite === undefined ? undefined : approachTo[plannedSite]
  const ordered = approachNames.toSorted((a, b) => Number(b === suggested) - Number(a === suggested))
  return (
    <div className={styles.usual}>
      <p>
        <StateSign tone="caution">{steps.usualStatus}</StateSign> {steps.usualNote} <strong>{steps.labelling}</strong>
      </p>
      <ul className={styles.approaches}>
        {ordered.map((approach) => (
          <li key={approach}>
            <Button
              tone={approach === suggested ? 'accent' : 'plain'}
              className={styles.approach ?? ''}
              onClick={() => onChoose(approach)}
            >
              <span>{steps.approach[approach]}</span>
              <span className={styles.count}>
                {[steps.usualCount(typicalSteps(approach).length), approach === suggested && steps.suggested]
                  .filter(Boolean)
                  .join(', ')}
              </span>
            </Button>
          </li>
        ))}
      </ul>
    </div>
  )
}
