'use client'

import { type FormEvent, useRef, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-delay.ts'
import { serverNow } from '@/app/server-clock.ts'
import { type JudgedPress, judgePress, pressCount } from '@/lib/board/video-delay.ts'
import styles from './delay-dialog.module.css'

interface MeasureDelayProps {
  /** how far the clock may be off, either way */
  readonly clockErrorMs: number
  readonly onMeasured: (delaysMs: number[]) => void
}

type Problem = Extract<JudgedPress, { ok: false }>['why']

/** Three presses at a change of the mark, each with the number that came. */
export function MeasureDelay({ clockErrorMs, onMeasured }: MeasureDelayProps) {
  const { delay, words } = useMessages()
  const number = useRef<HTMLInputElement>(null)
  const [pressedAtMs, setPressedAt] = useState<number>()
  const [mark, setMark] = useState('')
  const [taken, setTaken] = useState<readonly number[]>([])
  const [problem, setProblem] = useState<Problem>()
  const press = useRef<HTMLButtonElement>(null)

  const seeChange = () => {
    setPressedAt(serverNow().getTime())
    setProblem(undefined)
    setMark('')
    if (number.current !== null) {
      number.current.disabled = false
      number.current.focus()
    }
  }
  const take = (event: FormEvent) => {
    event.preventDefault()
    if (pressedAtMs === undefined) return
    const judged = judgePress({ pressedAtMs, mark: mark.trim() === '' ? 0 : Number(mark) })
    setPressedAt(undefined)
    setMark('')
    press.current?.focus()
    if (!judged.ok) return setProblem(judged.why)
    const all = [...taken, judged.delayMs]
    setTaken(all)
    if (all.length === pressCount) onMeasured(all)
  }
  return (
    <form className={styles.form} onSubmit={take}>
      <p className={styles.turn}>{delay.turn(Math.min(taken.length + 1, pressCount), pressCount)}</p>
      <PressButton
        ref={press}
        hint={pressedAtMs === undefined ? delay.pressHint : delay.pressedHint}
        onPress={seeChange}
      />
      <Field
        label={delay.number}
        hint={delay.numberHint}
        error={problem === undefined ? undefined : delay.problem[problem]}
      >
        {(control) => (
          <div className={styles.number}>
            <input
              {...control}
              ref={number}
              inputMode="numeric"
              autoComplete="off"
              maxLength={2}
              disabled={pressedAtMs === undefined}
              value={mark}
              onChange={(event) => setMark(event.currentTarget.value)}
            />
            <Button type="submit" tone="accent" disabled={pressedAtMs === undefined}>
              {delay.take}
            </Button>
          </div>
        )}
      </Field>
      {taken.length > 0 && <p role="status">{words.labelled(delay.takenTitle, taken.map(delay.taken).join(', '))}</p>}
      <p className={styles.fine}>{delay.clockError(clockErrorMs)}</p>
    </form>
  )
}

interface PressButtonProps {
  readonly ref: React.Ref<HTMLButtonElement>
  readonly hint: string
  readonly onPress: () => void
}

/** Counts from the moment that finger or key goes down: a click comes only when it is let go. */
function PressButton({ ref, hint, onPress }: PressButtonProps) {
  const { delay } = useMessages()
  return (
    <button
      ref={ref}
      type="button"
      className={styles.press}
      onPointerDown={onPress}
      // The focus goes to the number, not back to the button.
      onMouseDown={(event) => event.preventDefault()}
      onKeyDown={(event) => {
        if (event.repeat || (event.key !== ' ' && event.key !== 'Enter')) return
        event.preventDefault()
        onPress()
      }}
      // Software that presses for somebody sends a click alone.
      onClick={(event) => event.detail === 0 && onPress()}
    >
      <span className={styles.pressWord}>{delay.press}</span>
      <span>{hint}</span>
    </button>
  )
}
