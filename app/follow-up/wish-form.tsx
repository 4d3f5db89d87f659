'use client'

import { type FormEvent, useId, useState } from 'react'
import { useBoard } from '@/app/board/board-context.tsx'
import { amountRange } from '@/app/board/decisions/trigger-entry.ts'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { addContingency } from '@/lib/board/edits/decisions.ts'
import { textLimits } from '@/lib/board/identity.ts'
import { amountUnit, triggerSentence } from '@/lib/board/trigger-sentence.ts'
import { readingsOf, readWish, type Wish, type WishReading, type WishTopic } from '@/lib/board/wish.ts'
import styles from './watched-contingencies.module.css'

interface Choice {
  readonly topic: WishTopic
  readonly index: number
}

/**
 * A wish in the surgeon's own words becomes a trigger that can be measured: it proposes readings of what it understood, one is
 * taken with the arrow keys, its amount is changed where need be.
 */
export function WishForm({ onDone }: { readonly onDone: () => void }) {
  const { followUp, wishWords, shell } = useMessages()
  const { record, pen } = useBoard()
  const beforePosting = usePostGuard()
  const say = useSay()
  const kept = useKeptText('wish')
  const [chosen, setChosen] = useState<Choice>()
  const [amount, setAmount] = useState<string>()
  const [plan, setPlan] = useState<string>()
  const [all, setAll] = useState(false)
  const [tried, setTried] = useState(false)
  const words = followUp.wish
  const wish = readWish(kept.text, wishWords)
  const choice = chosen ?? { topic: wish.topics[0] ?? 'fixation', index: 0 }
  const reading = readingsOf[choice.topic][choice.index]
  const trigger = reading && withAmount(reading, amount)
  const then = (plan ?? wish.plan).trim()
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (trigger === undefined || then === '' || then.length > textLimits.long) return
    beforePosting(then, () => {
      addContingency(record, pen, trigger, then)
      kept.clear()
      say(words.saved)
      onDone()
    })
  }
  return (
    <LeavableForm className={styles.form} onSubmit={save} onLeave={onDone}>
      <Field label={words.label} hint={words.hint}>
        {(control) => (
          <input
            {...control}
            dir="auto"
            value={kept.text}
            maxLength={textLimits.short}
            // biome-ignore lint/a11y/noAutofocus: the form opens because somebody asked for it
            autoFocus
            onChange={({ target }) => kept.write(target.value)}
          />
        )}
      </Field>
      <Readings
        wish={wish}
        all={all}
        choice={choice}
        onChoose={(next) => {
          setChosen(next)
          setAmount(undefined)
        }}
      />
      {!all && wish.named > 0 && (
        <div>
          <Button tone="quiet" onClick={() => setAll(true)}>
            {words.more}
          </Button>
        </div>
      )}
      <div className={styles.fields}>
        {reading?.kind === 'measured' && (
          <AmountField reading={reading} typed={amount} isWrong={trigger === undefined} onType={setAmount} />
        )}
        <LimitedText
          label={words.plan}
          limit={textLimits.long}
          value={plan ?? wish.plan}
          onChange={setPlan}
          error={tried && then === '' ? words.planMissing : undefined}
        />
      </div>
      <div className={styles.acts}>
        <Button type="submit" tone="accent">
          {words.save}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}

/** @param typed amount of a reading that has one; absent: as the reading has it. @returns undefined when it is out of range */
function withAmount(reading: WishReading, typed: string | undefined): WishReading | undefined {
  if (reading.kind !== 'measured' || typed === undefined) return reading
  const amountDb = numberOf(typed)
  const [least, most] = amountRange(reading.change)
  return amountDb >= least && amountDb <= most ? { ...reading, amountDb } : undefined
}

const numberOf = (typed: string): number => (typed.trim() === '' ? Number.NaN : Number(typed.replace(',', '.')))

interface AmountFieldProps {
  readonly reading: Extract<WishReading, { kind: 'measured' }>
  readonly typed: string | undefined
  readonly isWrong: boolean
  readonly onType: (typed: string) => void
}

function AmountField({ reading, typed, isWrong, onType }: AmountFieldProps) {
  const { wish: words } = useMessages().followUp
  const [least, most] = amountRange(reading.change)
  return (
    <Field label={words.amount(amountUnit(reading))} error={isWrong ? words.amountWrong(least, most) : undefined}>
      {(control) => (
        <input
          {...control}
          inputMode="decimal"
          value={typed ?? String(reading.amountDb)}
          onChange={({ target }) => onType(target.value)}
        />
      )}
    </Field>
  )
}

interface ReadingsProps {
  readonly wish: Wish
  readonly all: boolean
  readonly choice: Choice
  readonly onChoose: (choice: Choice) => void
}

/** The readings of what the wish names; of everything while it names nothing. */
function Readings({ wish, all, choice, onChoose }: ReadingsProps) {
  const { followUp, decisions } = useMessages()
  const name = useId()
  const words = followUp.wish
  const shown = all || wish.named === 0 ? wish.topics : wish.topics.slice(0, wish.named)
  const sentenceOf = (reading: WishReading) => triggerSentence(reading, decisions.trigger)
  return (
    <fieldset className={styles.readings}>
      <legend>
        {words.readings} <span className={styles.fine}>{words.readingsHint}</span>
      </legend>
      {shown.map((topic) => (
        <div key={topic} className={styles.topic}>
          <p className={styles.fine}>{words.topic[topic]}</p>
          {readingsOf[topic].map((reading, index) => (
            <label key={sentenceOf(reading)} className={styles.reading}>
              <input
                type="radio"
                name={name}
                checked={choice.topic === topic && choice.index === index}
                onChange={() => onChoose({ topic, index })}
              />
              {sentenceOf(reading)}
            </label>
          ))}
        </div>
      ))}
    </fieldset>
  )
}
