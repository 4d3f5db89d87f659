'use client'

import { useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { type Messages, useMessages } from '@/app/messages/for-exchange.ts'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import { sendFile } from '@/app/send-file.ts'
import { type KindName, kindNames } from '@/lib/board/records.ts'
import { CaseArchivePreview, CaseSummary } from '@/lib/interchange/api.ts'
import { archiveLimits } from '@/lib/interchange/archive/manifest.ts'
import styles from './exchange.module.css'

/** A case that another installation wrote, into this programme. */
export function TakeInButton({ programme }: { readonly programme: string }) {
  const { exchange } = useMessages()
  const [isOpen, setOpen] = useState(false)
  return (
    <>
      <Button onClick={() => setOpen(true)}>{exchange.takeIn}</Button>
      <Dialog open={isOpen} wide onClose={() => setOpen(false)} title={exchange.takeIn}>
        <TakeIn programme={programme} onDone={() => setOpen(false)} />
      </Dialog>
    </>
  )
}

interface Checked {
  readonly file: File
  readonly preview: CaseArchivePreview
}

function TakeIn({ programme, onDone }: { readonly programme: string; readonly onDone: () => void }) {
  const { exchange } = useMessages()
  const say = useSay()
  const [checked, setChecked] = useState<Checked>()
  const [fault, setFault] = useState<string>()
  const [isWorking, setWorking] = useState(false)
  const path = `/api/programmes/${encodeURIComponent(programme)}/archives` as const

  const work = async (act: () => Promise<void>) => {
    setFault(undefined)
    setWorking(true)
    try {
      await act()
    } catch (error) {
      setFault(sentenceOfFault(error))
    } finally {
      setWorking(false)
    }
  }
  const check = async (file: File | undefined) => {
    setChecked(undefined)
    setFault(undefined)
    if (file === undefined) return
    // A server that stops reading a file cuts the connection, and its sentence would not be heard.
    if (file.size > archiveLimits.bytes) return setFault(exchange.tooLarge(file.size, archiveLimits.bytes))
    await work(async () =>
      setChecked({ file, preview: await sendFile(`${path}/preview`, file, asZip, CaseArchivePreview) }),
    )
  }
  const take = ({ file }: Checked, isCopy: boolean) =>
    work(async () => {
      const { label } = await sendFile(isCopy ? `${path}/copy` : path, file, asZip, CaseSummary)
      say(exchange.takenIn(label))
      onDone()
    })

  return (
    <div className={styles.parts}>
      <p>{exchange.takeInWhat}</p>
      <Field label={exchange.archiveFile} error={fault}>
        {(control) => (
          <input
            {...control}
            type="file"
            accept=".zip,application/zip"
            onChange={(event) => void check(event.currentTarget.files?.[0])}
          />
        )}
      </Field>
      {isWorking && <p role="status">{exchange.checking}</p>}
      {checked !== undefined && (
        <>
          <Preview preview={checked.preview} />
          <div className={styles.acts}>
            {checked.preview.standing === 'new' && (
              <Button tone="accent" disabled={isWorking} onClick={() => void take(checked, false)}>
                {exchange.takeInNow}
              </Button>
            )}
            {checked.preview.standing !== 'new' && checked.preview.standing !== 'same' && (
              <Button disabled={isWorking} onClick={() => void take(checked, true)}>
                {exchange.takeInCopy}
              </Button>
            )}
          </div>
        </>
      )}
    </div>
  )
}

const asZip = { 'content-type': 'application/zip' }

const columns = ['inArchive', 'onlyInArchive', 'same', 'differs', 'onlyHere'] as const

/** A column of zeros says nothing and leaves a phone no room for the others. */
const columnsWithNumbers = (kinds: CaseArchivePreview['kinds']) =>
  columns.filter((column) => column === 'inArchive' || kinds.some((each) => each[column] > 0))

function Preview({ preview }: { readonly preview: CaseArchivePreview }) {
  const messages = useMessages()
  const { exchange } = messages
  const { label, writtenAt, people, kinds, leftOut } = preview
  const shown = columnsWithNumbers(kinds)
  return (
    <div className={styles.parts} aria-live="polite">
      <p>{exchange.shown(label, dayAndClockOf(writtenAt), people)}</p>
      <p>{standingWords(preview, messages)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls is scrolled by the keyboard too */}
      <section className={styles.scroll} aria-label={exchange.kind} tabIndex={0}>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">{exchange.kind}</th>
              {shown.map((column) => (
                <th key={column} scope="col" data-number>
                  {exchange.counts[column]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {kinds.map((each) => (
              <tr key={each.kind}>
                <th scope="row">{kindWords(each.kind, messages)}</th>
                {shown.map((column) => (
                  <td key={column} data-number>
                    {each[column]}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className={styles.hint}>{exchange.leftOut(leftOut)}</p>
    </div>
  )
}

const kindWords = (kind: string, { words }: Messages): string => {
  const known: KindName | undefined = kindNames.find((name) => name === kind)
  return known === undefined ? kind : words.kind[known]
}

const standingWords = ({ standing, erasedAt }: CaseArchivePreview, { exchange }: Messages): string =>
  standing === 'erased' ? exchange.standings.erased(dayAndClockOf(erasedAt ?? '')) : exchange.standings[standing]
