import { usePerson } from '@/app/board/board-context.tsx'
import { Byline } from '@/app/board/byline.tsx'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { ScenarioRecord } from '@/lib/board/records/sealed-record.ts'
import type { DeviceOption } from '@/lib/devices/classes.ts'
import type { WhatIf } from '../case-forecast.ts'
import { optionText } from '../option-text.ts'
import styles from './frozen-section.module.css'

export const frozenRowId = (id: RecordId): string => `frozen-${id}`

interface FrozenRowProps {
  readonly scenario: ScenarioRecord
  readonly isSuperseded: boolean
  readonly question: string | undefined
  readonly onOpen: (option: DeviceOption, whatIf: WhatIf) => void
}

export function FrozenRow({ scenario, isSuperseded, question, onOpen }: FrozenRowProps) {
  const { forecast, whatIf, words } = useMessages()
  const { id, title, content, answer, author, at } = scenario
  const put = usePutOnScreen()
  const person = usePerson(author)
  const showing: Showing = { kind: 'scenario', id }
  const assumed = content.scenario
  const mean = answer.meanAidedThreshold
  return (
    <li
      className={styles.row}
      id={frozenRowId(id)}
      tabIndex={-1}
      data-superseded={isSuperseded}
      {...usePutOnScreenKey(showing)}
    >
      <p className={styles.name} dir="auto">
        {title} {isSuperseded && <StateSign tone="superseded">{whatIf.frozen.superseded}</StateSign>}
      </p>
      <p className={styles.facts}>
        {optionText(content.option, content.inputs.ear, words)}
        {mean.kind === 'change' && (
          <>
            {': '}
            <b>{whatIf.frozen.change(mean.value)}</b> (
            {forecast.intervalNamed(whatIf.to(whatIf.signed(mean.interval.low), whatIf.signed(mean.interval.high)))})
          </>
        )}
      </p>
      {question !== undefined && <p className={styles.facts}>{whatIf.frozen.answers(question)}</p>}
      <Byline person={person} at={at} />
      <div className={styles.acts}>
        {assumed !== undefined && (
          <Button
            tone="quiet"
            aria-label={whatIf.frozen.openNamed(title)}
            onClick={() => onOpen(content.option, { scenario: assumed.scenario, actuator: assumed.actuator })}
          >
            {whatIf.frozen.open}
          </Button>
        )}
        {put !== undefined && (
          <Button tone="quiet" aria-keyshortcuts="s" onClick={() => put(showing)}>
            <ScreenIcon /> {whatIf.frozen.show}
          </Button>
        )}
      </div>
    </li>
  )
}
