'use client'

import { type FormEvent, useState } from 'react'
import { useBoard, useMay, usePerson, useTable } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { testsBefore } from '@/lib/board/ear-course.ts'
import { answerFromVisit, moveItem } from '@/lib/board/edits/visits.ts'
import { textLimits } from '@/lib/board/identity.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import type { VisitItem, VisitItemState } from '@/lib/board/records/visit-item.ts'
import { answerFrom, type VisitAnswer } from '@/lib/board/visit-answer.ts'
import { answerText, frequenciesText, wantedText } from './answer-text.ts'
import { NewItem } from './new-item.tsx'
import type { FollowUp } from './use-follow-up.ts'
import styles from './visit-items.module.css'

interface VisitItemsProps {
  readonly facts: FollowUp
  readonly visit: Visit
}

/** What this visit has to answer, with the answer that its numbers propose; and deferred questions that wait for one. */
export function VisitItems({ facts, visit }: VisitItemsProps) {
  const { followUp } = useMessages()
  const may = useMay()
  const items = useTable('visitItems')
  const own = items.filter((item) => item.visit === visit.id).toSorted((a, b) => a.at.localeCompare(b.at))
  return (
    <Pane title={followUp.items.title}>
      {own.length === 0 && <p>{followUp.items.none}</p>}
      <ul className={styles.list}>
        {own.map((item) => (
          <ItemRow key={item.id} facts={facts} visit={visit} item={item} />
        ))}
      </ul>
      {may.mayCreate('visitItems') && <NewItem ear={facts.ear} visit={visit} items={items} />}
    </Pane>
  )
}

const tones: Readonly<Record<VisitItemState, Tone>> = { open: 'accent', done: 'good', dropped: 'quiet' }

interface ItemRowProps extends VisitItemsProps {
  readonly item: VisitItem
}

function ItemRow({ facts, visit, item }: ItemRowProps) {
  const messages = useMessages()
  const { followUp, words } = messages
  const { record } = useBoard()
  const may = useMay().mayChange('visitItems', 'state', item)
  const question = useTable('questions').find(({ id }) => id === item.question)
  return (
    <li className={styles.item} data-state={item.state}>
      <p>
        <StateSign tone={tones[item.state]}>{words.visitItemState[item.state]}</StateSign>{' '}
        <strong dir="auto">{item.words}</strong>
      </p>
      {question !== undefined && (
        <p className={styles.fine} dir="auto">
          {messages.words.labelled(followUp.items.asked, question.text)}
        </p>
      )}
      {item.wanted !== undefined && <p className={styles.fine}>{wantedText(item.wanted, messages)}</p>}
      <Outcome item={item} />
      {item.state === 'open' && may && <AnswerForm facts={facts} visit={visit} item={item} />}
      {item.state !== 'open' && may && (
        <div>
          <Button tone="quiet" onClick={() => moveItem(record, item.id, 'open')}>
            {followUp.items.reopen}
          </Button>
        </div>
      )}
    </li>
  )
}

function Outcome({ item: { done } }: Pick<ItemRowProps, 'item'>) {
  const { followUp, board } = useMessages()
  const person = usePerson(done?.by ?? '')
  if (done === undefined) return null
  return (
    <blockquote className={styles.outcome}>
      <p dir="auto">{done.outcome}</p>
      <p className={styles.fine}>{followUp.items.closed(person?.name ?? board.unknownPerson)}</p>
    </blockquote>
  )
}

/** The numbers propose, a person confirms: what is typed instead stays theirs. */
function AnswerForm({ facts, visit, item }: ItemRowProps) {
  const messages = useMessages()
  const { items: words } = messages.followUp
  const { record, floor, pen } = useBoard()
  const beforePosting = usePostGuard()
  const say = useSay()
  const answer = answerFrom(
    item,
    facts.tests,
    testsBefore(facts.tests, item.wanted?.ear ?? facts.ear, facts.operatedOn),
  )
  const proposed = answer && answerText(answer, visit, messages)
  const kept = useKeptText(`answer:${item.id}`)
  const [tried, setTried] = useState(false)
  const outcome = (kept.text === '' ? (proposed ?? '') : kept.text).trim()
  const confirm = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (outcome === '' || outcome.length > textLimits.long) return
    beforePosting(outcome, () => {
      answerFromVisit(record, floor, pen, item, outcome)
      kept.clear()
      say(words.done)
    })
  }
  return (
    <form className={styles.form} onSubmit={confirm} noValidate>
      <Proposal answer={answer} proposed={proposed} />
      <LimitedText
        label={words.outcome}
        limit={textLimits.long}
        lines={2}
        value={kept.text === '' ? (proposed ?? '') : kept.text}
        onChange={kept.write}
        error={tried && outcome === '' ? words.missingText : undefined}
      />
      <div className={styles.buttons}>
        <Button type="submit" tone={proposed === undefined ? 'plain' : 'accent'}>
          {words.confirm}
        </Button>
        <Button tone="quiet" onClick={() => moveItem(record, item.id, 'dropped')}>
          {words.drop}
        </Button>
      </div>
    </form>
  )
}

interface ProposalProps {
  readonly answer: VisitAnswer | undefined
  readonly proposed: string | undefined
}

function Proposal({ answer, proposed }: ProposalProps) {
  const { followUp, language } = useMessages()
  const words = followUp.items
  if (answer === undefined) return null
  return (
    <>
      <p className={styles.fine}>{proposed === undefined ? words.notYet : words.proposal}</p>
      {proposed !== undefined && answer.missing.length > 0 && (
        <p className={styles.missing}>
          <span aria-hidden="true">△ </span>
          {words.missing(frequenciesText(answer.missing, language))}
        </p>
      )}
    </>
  )
}
