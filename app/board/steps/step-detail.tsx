'use client'

import { usePerson } from '@/app/board/board-context.tsx'
import { Byline } from '@/app/board/byline.tsx'
import { jumpTo } from '@/app/board/jump.ts'
import { useMessages } from '@/app/messages/for-steps.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import styles from './step-detail.module.css'
import type { StepEntry, StepFacts } from './step-facts.ts'

/** What to look for in a step, what comes before it, why somebody went on without that, and what was written in it. */
export function StepDetail({ step, facts }: { readonly step: OperativeStep; readonly facts: StepFacts }) {
  const { steps } = useMessages()
  return (
    <>
      <dl className={styles.watch}>
        {step.check !== '' && (
          <div className={styles.watched} data-kind="check">
            <dt>{steps.check}</dt>
            <dd dir="auto">{step.check}</dd>
          </div>
        )}
        {step.hazard !== '' && (
          <div className={styles.watched} data-kind="hazard">
            <dt>{steps.hazard}</dt>
            <dd dir="auto">{step.hazard}</dd>
          </div>
        )}
        {facts.needs.length > 0 && (
          <div className={styles.watched} data-kind="needs">
            <dt>{steps.needsFirst}</dt>
            <dd>
              {facts.needs.map(({ id, title, isOpen }) => (
                <span key={id} className={styles.need} data-open={isOpen} dir="auto">
                  {isOpen ? steps.needOpen(title) : title}
                </span>
              ))}
            </dd>
          </div>
        )}
      </dl>
      <Exceptions exceptions={facts.exceptions} />
      <Entries entries={facts.entries} />
    </>
  )
}

function Exceptions({ exceptions }: Pick<StepFacts, 'exceptions'>) {
  if (exceptions.length === 0) return null
  return (
    <ul className={styles.exceptions}>
      {exceptions.map((exception) => (
        <Exception key={exception.id} exception={exception} />
      ))}
    </ul>
  )
}

function Exception({ exception: { need, by, at, reason } }: { readonly exception: StepFacts['exceptions'][number] }) {
  const { steps } = useMessages()
  return (
    <li>
      <b>{steps.wentOn(need)}</b> <span dir="auto">{reason}</span> <Byline person={usePerson(by)} at={at} />
    </li>
  )
}

function Entries({ entries }: Pick<StepFacts, 'entries'>) {
  const { steps } = useMessages()
  if (entries.length === 0) return null
  return (
    <ul className={styles.entries} aria-label={steps.written}>
      {entries.map((entry) => (
        <Entry key={entry.id} entry={entry} />
      ))}
    </ul>
  )
}

function Entry({ entry: { kind, table, id, text } }: { readonly entry: StepEntry }) {
  const { steps } = useMessages()
  const words = text === '' ? steps.emptyEntry : text
  return (
    <li>
      <button type="button" className={styles.entry} onClick={() => jumpTo({ kind: table, id })}>
        <b>{steps.entry[kind]}</b> <span dir="auto">{words}</span>
      </button>
    </li>
  )
}
