'use client'

import { type DragEvent, useMemo, useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { useMessages } from '@/app/messages/for-hearing-import.ts'
import { CalendarDay } from '@/lib/board/identity.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { ImportedTest } from '@/lib/interchange/audiogram-csv.ts'
import { decodeText } from '@/lib/interchange/text-encoding.ts'
import styles from './dialogs.module.css'
import { ImportFaults } from './import-faults.tsx'
import { mayImport, previewOf } from './import-preview.ts'
import { ImportTests } from './import-tests.tsx'
import { reasonProblem } from './reason-dialog.tsx'

interface ImportDialogProps {
  readonly tests: readonly HearingTest[]
  /** today, ISO 8601 */
  readonly today: string
  /** a table that was pasted elsewhere */
  readonly pasted: string | undefined
  readonly sentenceOf: (test: HearingTest) => string
  readonly onClose: () => void
  readonly onImport: (tests: readonly ImportedTest[], reason: string) => void
}

/** Text or file in, faults by row and column, and what would be entered; nothing happens before the last button. */
export function ImportDialog(props: ImportDialogProps) {
  const { hearing, hearingImport, shell } = useMessages()
  const beforePosting = usePostGuard()
  const source = useSource(props.pasted)
  const [date, setDate] = useState(props.today)
  const [reason, setReason] = useState('')
  const [goodRowsOnly, setGoodRowsOnly] = useState(false)
  const [earsCompared, setEarsCompared] = useState(false)
  const preview = useMemo(
    () => previewOf(source.text, props.tests, CalendarDay.safeParse(date).success ? date : props.today),
    [source.text, props.tests, date, props.today],
  )
  const superseded = props.tests.filter(
    (test) =>
      test.state === 'current' &&
      preview.tests.some((next) => next.ear === test.ear && next.condition === test.condition),
  )
  const problem = superseded.length === 0 ? undefined : reasonProblem(reason, hearing)
  const ready = mayImport(preview, { goodRowsOnly, earsCompared }) && problem === undefined
  const submit = () =>
    beforePosting(reason, () => {
      props.onImport(preview.tests, reason.trim())
      source.clear()
    })
  const empty = source.text.trim() === ''
  const { reading } = preview
  return (
    <Dialog open wide onClose={props.onClose} title={hearingImport.title}>
      <SourceFields source={source} />
      {empty ? (
        <p>{hearingImport.nothingYet}</p>
      ) : (
        <>
          <ImportFaults reading={reading} earsLookSwapped={preview.earsLookSwapped} />
          {reading.faults.length > 0 && reading.entries.length > 0 && (
            <Check
              checked={goodRowsOnly}
              onChange={setGoodRowsOnly}
              label={hearingImport.goodRows(reading.entries.length)}
            />
          )}
          {preview.earsLookSwapped && (
            <Check checked={earsCompared} onChange={setEarsCompared} label={hearingImport.swappedCheck} />
          )}
          {preview.tests.length > 0 && (
            <ImportTests tests={preview.tests} superseded={superseded} sentenceOf={props.sentenceOf} />
          )}
        </>
      )}
      <div className={styles.pair}>
        {reading.entries.some(({ performedOn }) => performedOn === undefined) && (
          <Field label={hearingImport.date}>
            {(control) => (
              <input
                {...control}
                type="date"
                max={props.today}
                value={date}
                onChange={(event) => setDate(event.currentTarget.value)}
              />
            )}
          </Field>
        )}
        {superseded.length > 0 && (
          <Field label={hearingImport.reason} hint={problem}>
            {(control) => (
              <input {...control} value={reason} onChange={(event) => setReason(event.currentTarget.value)} />
            )}
          </Field>
        )}
      </div>
      <div className={styles.buttons}>
        <Button tone="accent" disabled={!ready} onClick={submit}>
          {hearingImport.submit(preview.tests.length)}
        </Button>
        <Button onClick={props.onClose}>{shell.cancel}</Button>
      </div>
    </Dialog>
  )
}

type Source = ReturnType<typeof useSource>

/** The text to be read. It outlives the dialog; a file replaces it, decoded. */
function useSource(pasted: string | undefined) {
  const kept = useKeptText('hearing-import')
  const [typed, setTyped] = useState<string | undefined>(pasted)
  const [file, setFile] = useState<{ name: string; encoding: string }>()
  const text = typed ?? kept.text
  const write = (next: string) => {
    setTyped(undefined)
    setFile(undefined)
    kept.write(next)
  }
  const open = async (chosen: File | undefined) => {
    if (chosen === undefined) return
    const decoded = decodeText(new Uint8Array(await chosen.arrayBuffer()))
    write(decoded.text)
    setFile({ name: chosen.name, encoding: decoded.encoding })
  }
  const clear = () => {
    setTyped(undefined)
    setFile(undefined)
    kept.clear()
  }
  return { text, file, write, open, clear }
}

function SourceFields({ source }: { source: Source }) {
  const { hearingImport } = useMessages()
  const onDrop = (event: DragEvent) => {
    if (event.dataTransfer.files.length === 0) return
    event.preventDefault()
    void source.open(event.dataTransfer.files[0])
  }
  return (
    <>
      <Field label={hearingImport.text} hint={hearingImport.hint}>
        {(control) => (
          <textarea
            {...control}
            className={styles.source}
            rows={7}
            wrap="off"
            spellCheck={false}
            value={source.text}
            onChange={(event) => source.write(event.currentTarget.value)}
            onDragOver={(event) => event.preventDefault()}
            onDrop={onDrop}
          />
        )}
      </Field>
      <Field
        label={hearingImport.choose}
        hint={source.file && hearingImport.read(source.file.name, source.file.encoding)}
      >
        {(control) => (
          <input
            {...control}
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            onChange={(event) => void source.open(event.currentTarget.files?.[0])}
          />
        )}
      </Field>
    </>
  )
}

interface CheckProps {
  readonly checked: boolean
  readonly onChange: (checked: boolean) => void
  readonly label: string
}

function Check({ checked, onChange, label }: CheckProps) {
  return (
    <label className={styles.check}>
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.currentTarget.checked)} />
      {label}
    </label>
  )
}
