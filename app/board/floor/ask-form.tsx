'use client'

import { type FormEvent, useRef, useState } from 'react'
import { stopPick } from '@/app/board/chart-pick.ts'
import { AnchorField } from '@/app/board/later-parts.ts'
import { useHiddenPointer } from '@/app/board/presence.ts'
import { Button } from '@/app/components/button.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { Anchor } from '@/lib/board/records/question.ts'
import styles from './ask-form.module.css'
import type { FloorDesk } from './floor-desk.ts'
import { floorLimits } from './limits.ts'

/** A question in two steps: write, ask. What it is about is a third that one can leave out. */
export function AskForm({ desk }: { readonly desk: FloorDesk }) {
  const { floor } = useMessages()
  const say = useSay()
  const words = useKeptText('ask')
  const [anchor, setAnchor] = useKeptAnchor()
  const [isUnnamed, setUnnamed] = useState(false)
  useHiddenPointer(isUnnamed)
  const [missing, setMissing] = useState(false)
  const [isOpen, setOpen] = useState(words.text !== '' || anchor !== undefined)
  const mayHide = !desk.may.mayChange('questions', 'rank', { author: desk.me })
  const field = useRef<HTMLTextAreaElement>(null)
  const ask = (event: FormEvent) => {
    event.preventDefault()
    const text = words.text.trim()
    setMissing(text === '')
    if (text === '' || text.length > floorLimits.question) return field.current?.focus()
    stopPick()
    const question = { text, ...(anchor === undefined ? {} : { anchor }) }
    desk.beforePosting(text, async () => {
      if (isUnnamed) {
        if (!(await desk.acts.askUnnamed(question))) return
      } else desk.acts.ask(question)
      words.clear()
      setAnchor(undefined)
      setUnnamed(false)
      say(isUnnamed ? floor.ask.askedUnnamed : floor.ask.asked)
    })
  }
  return (
    <form className={styles.ask} onSubmit={ask} onFocus={() => setOpen(true)} noValidate>
      <LimitedText
        ref={field}
        label={floor.ask.label}
        placeholder={floor.ask.placeholder}
        limit={floorLimits.question}
        value={words.text}
        onChange={words.write}
        error={missing && words.text.trim() === '' ? floor.ask.empty : undefined}
      />
      {isOpen && (
        <div className={styles.foot}>
          <AnchorField anchor={anchor} onChange={setAnchor} desk={desk} />
          {mayHide && (
            <label className={styles.unnamed}>
              <input type="checkbox" checked={isUnnamed} onChange={(event) => setUnnamed(event.target.checked)} />
              <span>
                {floor.ask.unnamed} <span className={styles.hint}>{floor.ask.unnamedHint}</span>
              </span>
            </label>
          )}
          <Button type="submit" tone="accent" title={floor.ask.submitHint}>
            {floor.ask.submit}
          </Button>
        </div>
      )}
    </form>
  )
}

/** The place outlives the form as the words do: pointing at the chart may close this pane on a phone. */
function useKeptAnchor(): [Anchor | undefined, (anchor: Anchor | undefined) => void] {
  const { text, write, clear } = useKeptText('ask-about')
  const anchor = text === '' ? undefined : Anchor.safeParse(JSON.parse(text)).data
  return [anchor, (next) => (next === undefined ? clear() : write(JSON.stringify(next)))]
}
