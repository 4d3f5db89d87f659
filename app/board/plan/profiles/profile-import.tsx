'use client'

import { type DragEvent, useMemo, useState } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import { enterProfile } from '@/lib/board/edits/forecast.ts'
import { deviceProfiles } from '@/lib/forecast/profiles.ts'
import type { ProfileFault } from '@/lib/forecast/team-profile.ts'
import { ProfilePreview } from './profile-preview.tsx'
import { type ProfileReading, readProfileText } from './profile-reading.ts'
import styles from './profiles.module.css'

/** Text or file in, every fault with its place, and what would be entered; nothing happens before the last button. */
export default function ProfileImport({ onDone }: { readonly onDone: () => void }) {
  const { forecastRecords } = useMessages()
  const { profiles: words } = forecastRecords
  const { record, pen } = useBoard()
  const say = useSay()
  const kept = useKeptText('profile-import')
  const [file, setFile] = useState<string>()
  const entered = useTable('profiles')
  const known = useMemo(() => [...deviceProfiles, ...entered.map(({ profile }) => profile)], [entered])
  const reading = useMemo(() => readProfileText(kept.text, known), [kept.text, known])
  const open = async (chosen: File | undefined) => {
    if (chosen === undefined) return
    kept.write(await chosen.text())
    setFile(chosen.name)
  }
  const enter = () => {
    if (reading.kind !== 'profile') return
    enterProfile(record, pen, reading.profile)
    kept.clear()
    say(words.done)
    onDone()
  }
  const onDrop = (event: DragEvent) => {
    if (event.dataTransfer.files.length === 0) return
    event.preventDefault()
    void open(event.dataTransfer.files[0])
  }
  return (
    <div className={styles.import}>
      <Field label={words.text} hint={words.hint}>
        {(control) => (
          <textarea
            {...control}
            className={styles.source}
            rows={6}
            wrap="off"
            spellCheck={false}
            value={kept.text}
            onChange={(event) => {
              setFile(undefined)
              kept.write(event.currentTarget.value)
            }}
            onDragOver={(event) => event.preventDefault()}
            onDrop={onDrop}
          />
        )}
      </Field>
      <Field label={words.choose} hint={file === undefined ? undefined : words.read(file)}>
        {(control) => (
          <input
            {...control}
            type="file"
            accept=".json,application/json"
            onChange={(event) => void open(event.currentTarget.files?.[0])}
          />
        )}
      </Field>
      <Reading reading={reading} />
      <p className={styles.note}>{words.hintSealed}</p>
      <div>
        <Button tone="accent" disabled={reading.kind !== 'profile'} onClick={enter}>
          {words.submit}
        </Button>
      </div>
    </div>
  )
}

function Reading({ reading }: { readonly reading: ProfileReading }) {
  const { forecastRecords } = useMessages()
  const { profiles: words } = forecastRecords
  switch (reading.kind) {
    case 'nothing':
      return null
    case 'not-json':
      return (
        <p className={styles.fault} role="status">
          {words.notJson(reading.place)}
        </p>
      )
    case 'faults':
      return <Faults faults={reading.faults} />
    case 'taken':
      return (
        <p className={styles.fault} role="status">
          {words.taken(reading.profile.id, reading.profile.version)}
        </p>
      )
    case 'profile':
      return <ProfilePreview profile={reading.profile} />
    default:
      return reading satisfies never
  }
}

/** Faults in a list longer than this are counted instead; the first ones usually explain the rest. */
const faultsListed = 30

function Faults({ faults }: { readonly faults: readonly ProfileFault[] }) {
  const { forecastRecords } = useMessages()
  const { profiles: words } = forecastRecords
  return (
    <section role="status">
      <p>
        <StateSign tone="stop">{words.faults(faults.length)}</StateSign>
      </p>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">{words.where}</th>
            <th scope="col">{words.problem}</th>
          </tr>
        </thead>
        <tbody>
          {faults.slice(0, faultsListed).map((fault) => (
            <tr key={`${fault.path} ${fault.code} ${fault.wanted}`}>
              <td>
                <code>{fault.path === '' ? words.whole : fault.path}</code>
              </td>
              <td>{words.fault(fault)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {faults.length > faultsListed && <p>{words.more(faults.length - faultsListed)}</p>}
    </section>
  )
}
