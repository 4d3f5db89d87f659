'use client'

import { useMemo, useState } from 'react'
import { useBoard, useMay, usePerson, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { moveContingency } from '@/lib/board/edits/decisions.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { Contingency, ContingencyState } from '@/lib/board/records/contingency.ts'
import { isHeld } from '@/lib/board/records/visit.ts'
import { triggerSentence } from '@/lib/board/trigger-sentence.ts'
import { type Judged, latestVerdict, type VisitVerdict } from '@/lib/outcomes/verdict.ts'
import { watchedOver } from '@/lib/outcomes/watched-over.ts'
import { ActForm } from './act-form.tsx'
import type { FollowUp } from './use-follow-up.ts'
import { useNextNames } from './use-next-names.ts'
import { VerdictTable } from './verdict-table.tsx'
import { visitName } from './visit-name.ts'
import styles from './watched-contingencies.module.css'
import { WishForm } from './wish-form.tsx'

/** Every contingency with what each visit says to it, and what was done about those that are met. */
export function WatchedContingencies({ facts }: { readonly facts: FollowUp }) {
  const { followUp } = useMessages()
  const may = useMay()
  const contingencies = useTable('contingencies')
  const [wishing, setWishing] = useState(false)
  const words = followUp.watch
  const watched = new Set(contingencies.map(({ trigger }) => trigger.kind))
  return (
    <Pane
      title={words.title}
      actions={
        may.mayCreate('contingencies') &&
        !wishing && <Button onClick={() => setWishing(true)}>{followUp.wish.open}</Button>
      }
    >
      {wishing && <WishForm onDone={() => setWishing(false)} />}
      {contingencies.length === 0 && <p>{words.none}</p>}
      <ul className={styles.list}>
        {contingencies.toSorted(byRank).map((contingency) => (
          <WatchedRow key={contingency.id} facts={facts} contingency={contingency} />
        ))}
      </ul>
      {watched.has('measured') && <p className={styles.fine}>{words.explanation}</p>}
      {watched.has('words') && <p className={styles.fine}>{words.wordsExplanation}</p>}
    </Pane>
  )
}

const tones: Readonly<Record<ContingencyState, Tone>> = {
  watching: 'quiet',
  met: 'caution',
  'acted-on': 'good',
  'stood-down': 'superseded',
}

interface WatchedRowProps {
  readonly facts: FollowUp
  readonly contingency: Contingency
}

function WatchedRow({ facts, contingency }: WatchedRowProps) {
  const { followUp, decisions, words } = useMessages()
  const { trigger, state, plan } = contingency
  const over = useMemo(
    () => (trigger.kind === 'found' ? [] : watchedOver(trigger, facts.course)),
    [trigger, facts.course],
  )
  const sentence = triggerSentence(trigger, decisions.trigger)
  return (
    <li className={styles.row} data-state={state}>
      <p className={styles.state}>
        <StateSign tone={tones[state]}>{words.contingencyState[state]}</StateSign>
      </p>
      <dl className={styles.clauses}>
        <dt>{decisions.contingency.ifWord}</dt>
        <dd dir="auto">{sentence}</dd>
        <dt>{decisions.contingency.thenWord}</dt>
        <dd dir="auto">{plan}</dd>
      </dl>
      {trigger.kind === 'found' ? (
        <p className={styles.fine}>{followUp.watch.found}</p>
      ) : (
        <VerdictTable sentence={sentence} over={over} visits={facts.visits} />
      )}
      <WhatWasDone contingency={contingency} />
      <WatchedActs facts={facts} contingency={contingency} over={over} />
    </li>
  )
}

function WhatWasDone({ contingency: { acted } }: Pick<WatchedRowProps, 'contingency'>) {
  const { followUp, board } = useMessages()
  const person = usePerson(acted?.by ?? '')
  const nameOf = useNextNames()
  if (acted === undefined) return null
  return (
    <blockquote className={styles.acted}>
      <p dir="auto">{acted.what}</p>
      <p className={styles.fine}>
        {followUp.watch.acted(person?.name ?? board.unknownPerson)}
        {acted.next !== undefined && `. ${followUp.watch.leadsTo(nameOf(acted.next))}`}
      </p>
    </blockquote>
  )
}

interface WatchedActsProps extends WatchedRowProps {
  readonly over: readonly VisitVerdict[]
}

function WatchedActs({ facts, contingency, over }: WatchedActsProps) {
  const messages = useMessages()
  const { watch: words } = messages.followUp
  const { record, pen } = useBoard()
  const may = useMay()
  const say = useSay()
  const [acting, setActing] = useState(false)
  const latest = latestVerdict(over)
  // what nobody measures was found at the visit that was held last
  const visit =
    contingency.trigger.kind === 'found'
      ? facts.visits.findLast(isHeld)
      : facts.visits.find(({ id }) => id === latest?.visit)
  const name = visit === undefined ? '' : visitName(visit, messages)
  const to = (state: ContingencyState) => may.mayMove('contingencies', contingency, state)
  const move = (state: ContingencyState, why: string) => {
    moveContingency(record, pen, contingency.id, state, why, visit?.id)
    say(words.done)
  }
  const isMetNow = contingency.state === 'watching' && latest?.watched.verdict === 'met'
  const mayCall =
    contingency.state === 'watching' &&
    visit !== undefined &&
    latest?.watched.verdict !== 'not-met' &&
    may.mayMove('contingencies', contingency, 'met')
  return (
    <>
      {isMetNow && (
        <p className={styles.met}>
          <span aria-hidden="true">△ </span>
          {words.metBy(name)}
        </p>
      )}
      <div className={styles.acts}>
        {mayCall && (
          <Button
            tone={isMetNow ? 'accent' : 'plain'}
            onClick={() =>
              move(
                'met',
                latest === undefined
                  ? words.foundWhy(name)
                  : words.measuredWhy(name, probabilityText(latest.watched, messages)),
              )
            }
          >
            {words.markMet}
          </Button>
        )}
        {contingency.state === 'met' && to('acted-on') && !acting && (
          <Button tone="accent" onClick={() => setActing(true)}>
            {words.act}
          </Button>
        )}
        {contingency.state === 'met' && to('watching') && (
          <Button tone="quiet" onClick={() => move('watching', words.watchOn)}>
            {words.watchOn}
          </Button>
        )}
        {(contingency.state === 'acted-on' || contingency.state === 'stood-down') && to('watching') && (
          <Button tone="quiet" onClick={() => move('watching', words.watchAgain)}>
            {words.watchAgain}
          </Button>
        )}
      </div>
      {acting && contingency.state === 'met' && <ActForm contingency={contingency} onDone={() => setActing(false)} />}
    </>
  )
}

const probabilityText = ({ probability }: Judged, { followUp }: ReturnType<typeof useMessages>): string =>
  followUp.watch.probability(probability.low, probability.high)
