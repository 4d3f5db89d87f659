'use client'

import { Byline } from '@/app/board/byline.tsx'
import { ActBar, ActButton, OrderButtons } from '@/app/components/act-bar.tsx'
import { Moment } from '@/app/components/moment.tsx'
import type { RowProps } from '@/app/components/roving-rows.ts'
import { RowTitle } from '@/app/components/row-title.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import type { Contingency, ContingencyState } from '@/lib/board/records/contingency.ts'
import { triggerSentence } from '@/lib/board/trigger-sentence.ts'
import styles from './card.module.css'
import { ContingencyForm } from './contingency-form.tsx'
import { type ContingencyRights, contingencyKeys, moveKeys } from './decision-rights.ts'
import type { DecisionsDesk } from './decisions-desk.ts'
import { ReasonForm } from './reason-form.tsx'
import { StepChoice, StepLine } from './step-choice.tsx'

/** A form that stands open in a contingency: its words, or the reason of a move. */
export type ContingencyTask = 'reword' | ContingencyState

interface ContingencyCardProps {
  readonly contingency: Contingency
  readonly desk: DecisionsDesk
  readonly rights: ContingencyRights
  readonly rowProps: RowProps
  readonly isCurrent: boolean
  readonly task: ContingencyTask | undefined
  readonly onAct: (act: ContingencyTask | 'screen') => void
  readonly onTaskDone: () => void
}

export const contingencySigns: Readonly<Record<ContingencyState, string>> = {
  watching: '◎',
  met: '△',
  'acted-on': '✓',
  'stood-down': '–',
}

/** "If this happens, then we do that", its state, and who brought it there and why. */
export function ContingencyCard(props: ContingencyCardProps) {
  const { contingency, desk, rights, rowProps, isCurrent, task } = props
  const { decisions, words } = useMessages()
  const state = words.contingencyState[contingency.state]
  const press = rights.order
    ? {
        isOpen: rights.reword ? task === 'reword' : undefined,
        act: () => {
          if (rights.reword) props.onAct('reword')
        },
      }
    : undefined
  const sentence = triggerSentence(contingency.trigger, decisions.trigger)
  return (
    <li className={styles.card} data-row-of={contingency.id} data-state={contingency.state} data-current={isCurrent}>
      <div className={styles.head}>
        <RowTitle
          row={rowProps}
          className={styles.title}
          label={decisions.contingency.name(state, sentence)}
          press={press}
        >
          <span aria-hidden="true">{contingencySigns[contingency.state]}</span> {state}
        </RowTitle>
        <Byline person={desk.people.get(contingency.author)} at={contingency.at} />
      </div>
      <dl className={styles.clauses}>
        <dt>{decisions.contingency.ifWord}</dt>
        <dd dir="auto">{sentence}</dd>
        <dt>{decisions.contingency.thenWord}</dt>
        <dd dir="auto">{contingency.plan}</dd>
      </dl>
      <StepLine step={contingency.step} desk={desk} />
      <LastMove contingency={contingency} desk={desk} />
      {isCurrent && <ContingencyActions {...props} />}
      <ContingencyTaskForm {...props} />
    </li>
  )
}

function LastMove({ contingency: { moved }, desk }: Pick<ContingencyCardProps, 'contingency' | 'desk'>) {
  const { decisions, board } = useMessages()
  if (moved === undefined) return null
  const name = desk.people.get(moved.by)?.name ?? board.unknownPerson
  return (
    <p className={styles.struck}>
      <span className={styles.fine}>
        {decisions.contingency.moved(name)} · <Moment at={moved.at} />
      </span>{' '}
      <span dir="auto">{moved.why}</span>
    </p>
  )
}

function ContingencyActions({ contingency, desk, rights, task, onAct }: ContingencyCardProps) {
  const { decisions, words } = useMessages()
  const hasScreen = desk.acts.screen !== undefined
  if (rights.moves.length === 0 && !rights.order && !hasScreen) return null
  return (
    <ActBar>
      {rights.moves.map((state) => (
        <ActButton
          key={state}
          label={words.contingencyState[state]}
          shortcut={moveKeys[state]}
          isOpen={task === state}
          onAct={() => onAct(state)}
        />
      ))}
      {rights.reword && (
        <ActButton
          label={decisions.act.reword}
          shortcut={contingencyKeys.reword}
          isOpen={task === 'reword'}
          onAct={() => onAct('reword')}
        />
      )}
      {hasScreen && (
        <ActButton label={decisions.act.screen} shortcut={contingencyKeys.screen} onAct={() => onAct('screen')} />
      )}
      {rights.order && (
        <OrderButtons
          up={decisions.act.up}
          down={decisions.act.down}
          onShift={(by) => desk.acts.shiftContingency(contingency.id, by)}
        />
      )}
    </ActBar>
  )
}

function ContingencyTaskForm({ contingency, desk, rights, task, onTaskDone }: ContingencyCardProps) {
  const { decisions, words } = useMessages()
  if (task === undefined) return null
  if (task === 'reword')
    return (
      <>
        <ContingencyForm
          contingency={contingency}
          desk={desk}
          onSave={(trigger, plan) => desk.acts.rewordContingency(contingency.id, trigger, plan)}
          onDone={onTaskDone}
        />
        <StepChoice of={{ ...contingency, kind: 'contingencies' }} desk={desk} />
      </>
    )
  if (!rights.moves.includes(task)) return null
  return (
    <ReasonForm
      name={`move:${contingency.id}:${task}`}
      label={decisions.contingency.why}
      hint={decisions.contingency.whyHint}
      submit={decisions.contingency.moveTo(words.contingencyState[task])}
      tone="accent"
      onReason={(why, sent) =>
        desk.beforePosting(why, () => {
          desk.acts.moveContingency(contingency.id, task, why)
          sent()
        })
      }
      onDone={onTaskDone}
    />
  )
}
