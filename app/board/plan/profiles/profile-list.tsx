'use client'

import { lazy, Suspense, useState } from 'react'
import { useMay, usePerson, useTable } from '@/app/board/board-context.tsx'
import { Byline } from '@/app/board/byline.tsx'
import { Button } from '@/app/components/button.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import type { ProfileRecord } from '@/lib/board/records/sealed-record.ts'
import { latestProfiles } from '@/lib/forecast/ear-options.ts'
import styles from './profiles.module.css'

const ProfileImport = lazy(() => import('./profile-import.tsx'))

/** Profiles that the team entered, and the way to enter another. */
export default function ProfileList() {
  const { forecastRecords } = useMessages()
  const { profiles: words } = forecastRecords
  const may = useMay()
  const entered = useTable('profiles')
  const [isAdding, setAdding] = useState(false)
  const latest = latestProfiles(entered.map(({ profile }) => profile))
  return (
    <>
      {entered.length === 0 ? (
        <p className={styles.note}>{words.none}</p>
      ) : (
        <ul className={styles.list} aria-label={words.title}>
          {entered.map((record) => (
            <ProfileRow key={record.id} record={record} isLatest={latest.includes(record.profile)} />
          ))}
        </ul>
      )}
      {may.mayCreate('profiles') && (
        <div>
          <Button aria-expanded={isAdding} onClick={() => setAdding(!isAdding)}>
            {words.add}
          </Button>
        </div>
      )}
      {isAdding && (
        <Suspense>
          <ProfileImport onDone={() => setAdding(false)} />
        </Suspense>
      )}
    </>
  )
}

function ProfileRow({ record, isLatest }: { readonly record: ProfileRecord; readonly isLatest: boolean }) {
  const { forecastRecords, words } = useMessages()
  const { profile, author, at } = record
  const person = usePerson(author)
  return (
    <li className={styles.row}>
      <p className={styles.name}>
        {forecastRecords.profiles.version(profile.id, profile.version)}{' '}
        {!isLatest && <StateSign tone="superseded">{forecastRecords.profiles.older}</StateSign>}
      </p>
      <p className={styles.facts}>{words.deviceClass[profile.deviceClass]}</p>
      <Byline person={person} at={at} />
    </li>
  )
}
