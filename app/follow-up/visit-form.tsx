'use client'

import type { FormEvent } from 'react'
import { useBoard } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { changeVisit } from '@/lib/board/edits/visits.ts'
import { textLimits } from '@/lib/board/identity.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import styles from './visit-details.module.css'
import { changes, entryUnder, hoursOf, settingsOf, useKeptEntry } from './visit-entry.ts'

/** Settings, findings and note of a visit. Only fields that were typed in are written. */
export function VisitForm({ visit }: { readonly visit: Visit }) {
  const { followUp } = useMessages()
  const { record } = useBoard()
  const beforePosting = usePostGuard()
  const say = useSay()
  const { typed, set, clear } = useKeptEntry(visit.id)
  const entry = entryUnder(typed, visit)
  const words = followUp.visit
  const hours = hoursOf(entry.hours)
  const hoursWrong = entry.hours.trim() !== '' && !(hours >= 0 && hours <= 24)
  const isTooLong =
    entry.words.length > textLimits.short || Math.max(entry.findings.length, entry.note.length) > textLimits.long
  const isChanged = Object.keys(typed).length > 0
  const save = (event: FormEvent) => {
    event.preventDefault()
    if (hoursWrong || isTooLong || !isChanged) return
    beforePosting(`${entry.words}\n${entry.findings}\n${entry.note}`, () => {
      const touchesSettings = 'change' in typed || 'hours' in typed || 'words' in typed
      changeVisit(record, visit.id, {
        ...(touchesSettings ? { settings: settingsOf(entry) } : {}),
        ...('findings' in typed ? { findings: entry.findings.trim() } : {}),
        ...('note' in typed ? { note: entry.note.trim() } : {}),
      })
      clear()
      say(words.saved)
    })
  }
  return (
    <form className={styles.wide} onSubmit={save} noValidate>
      <div className={styles.fields}>
        <Field label={words.settings}>
          {(control) => (
            <select
              {...control}
              value={entry.change}
              onChange={({ target }) => set({ change: changes.find((change) => change === target.value) ?? '' })}
            >
              <option value="">{words.notStated}</option>
              {changes.map((change) => (
                <option key={change} value={change}>
                  {words.changes[change]}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label={words.hours} error={hoursWrong ? words.hoursWrong : undefined}>
          {(control) => (
            <input
              {...control}
              inputMode="decimal"
              value={entry.hours}
              disabled={entry.change === ''}
              onChange={({ target }) => set({ hours: target.value })}
            />
          )}
        </Field>
        {entry.change !== '' && (
          <LimitedText
            label={words.settingsWords}
            limit={textLimits.short}
            value={entry.words}
            onChange={(text) => set({ words: text })}
          />
        )}
      </div>
      <div className={styles.fields}>
        <LimitedText
          label={words.findings}
          limit={textLimits.long}
          lines={2}
          value={entry.findings}
          onChange={(findings) => set({ findings })}
        />
        <LimitedText
          label={words.note}
          limit={textLimits.long}
          lines={2}
          value={entry.note}
          onChange={(note) => set({ note })}
        />
      </div>
      {isChanged && (
        <div className={styles.row}>
          <Button type="submit" tone="accent">
            {followUp.save}
          </Button>
        </div>
      )}
    </form>
  )
}
