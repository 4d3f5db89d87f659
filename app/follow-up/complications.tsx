'use client'

import { useBoard } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { AddChoice } from '@/app/components/add-choice.tsx'
import { Button } from '@/app/components/button.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { changeVisit, setComplication } from '@/lib/board/edits/visits.ts'
import { textLimits } from '@/lib/board/identity.ts'
import { type Complication, ComplicationKind, type Visit } from '@/lib/board/records/visit.ts'
import styles from './visit-details.module.css'

interface ComplicationsProps {
  readonly visit: Visit
  readonly mayChange: boolean
}

/** What went wrong, each from one list, and whether anybody asked. */
export function Complications({ visit, mayChange }: ComplicationsProps) {
  const { followUp } = useMessages()
  const { record } = useBoard()
  const words = followUp.visit
  const noted = ComplicationKind.options.flatMap((kind) => {
    const complication = visit.complications[kind]
    return complication === undefined ? [] : [{ kind, complication }]
  })
  const rest = ComplicationKind.options.filter((kind) => visit.complications[kind] === undefined)
  const sought = visit.complicationsSought === true
  return (
    <section className={styles.wide} aria-label={words.complications}>
      <h3 className={styles.heading}>{words.complications}</h3>
      {noted.length === 0 && <p className={styles.fine}>{sought ? words.none : words.notSought}</p>}
      {noted.length > 0 && (
        <ul className={styles.list}>
          {noted.map(({ kind, complication }) => (
            <ComplicationRow key={kind} visit={visit} kind={kind} complication={complication} mayChange={mayChange} />
          ))}
        </ul>
      )}
      {mayChange && (
        <div className={styles.row}>
          <AddChoice
            label={words.addComplication}
            prompt={words.chooseComplication}
            add={words.add}
            options={rest.map((kind) => [kind, words.complication[kind]])}
            onAdd={(value) =>
              setComplication(record, visit.id, ComplicationKind.parse(value), { course: 'new', words: '' })
            }
          />
          <label className={styles.check} title={words.soughtHint}>
            <input
              type="checkbox"
              checked={sought}
              onChange={({ target }) => changeVisit(record, visit.id, { complicationsSought: target.checked })}
            />
            {words.sought}
          </label>
        </div>
      )}
    </section>
  )
}

const courses = ['new', 'going-on', 'resolved'] as const

interface RowProps extends ComplicationsProps {
  readonly kind: ComplicationKind
  readonly complication: Complication
}

function ComplicationRow({ visit, kind, complication, mayChange }: RowProps) {
  const { followUp } = useMessages()
  const { record } = useBoard()
  const beforePosting = usePostGuard()
  const words = followUp.visit
  const name = words.complication[kind]
  const change = (patch: Partial<Complication>) =>
    setComplication(record, visit.id, kind, { ...complication, ...patch })
  if (!mayChange)
    return (
      <li className={styles.complication}>
        <StateSign tone="caution">{name}</StateSign>
        <span>{words.course[complication.course]}</span>
        <span dir="auto">{complication.words}</span>
      </li>
    )
  return (
    <li className={styles.complication}>
      <StateSign tone="caution">{name}</StateSign>
      <select
        aria-label={words.courseOf(name)}
        value={complication.course}
        onChange={({ target }) => change({ course: courses.find((course) => course === target.value) ?? 'new' })}
      >
        {courses.map((course) => (
          <option key={course} value={course}>
            {words.course[course]}
          </option>
        ))}
      </select>
      <input
        aria-label={words.wordsOf(name)}
        dir="auto"
        maxLength={textLimits.short}
        defaultValue={complication.words}
        key={complication.words}
        onBlur={({ target }) => {
          const text = target.value.trim()
          if (text !== complication.words) beforePosting(text, () => change({ words: text }))
        }}
      />
      <Button
        tone="quiet"
        aria-label={words.remove(name)}
        onClick={() => setComplication(record, visit.id, kind, undefined)}
      >
        ✕
      </Button>
    </li>
  )
}
