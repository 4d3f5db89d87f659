'use client'

import { useEffect, useState } from 'react'
import { markInAddress, putMarkInAddress } from '@/app/address-mark.ts'
import { askApi, sentenceOfFault } from '@/app/api-client.ts'
import { useBoard } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-learning.ts'
import { rolesWithSeries } from '@/lib/board/roles.ts'
import type { DeviceOption } from '@/lib/devices/classes.ts'
import { type Experience, earsWith, type SeriesOutcome } from '@/lib/forecast/experience.ts'
import { ExperienceAnswer } from '@/lib/interchange/experience.ts'
import styles from './learning-switch.module.css'

interface LearningSwitchProps {
  /** whose forecast is looked at */
  readonly option: DeviceOption | undefined
  readonly onLearn: (experience: Experience | undefined) => void
}

type Loaded =
  | { readonly state: 'not-asked' | 'asking' }
  | { readonly state: 'failed'; readonly reason: string }
  | { readonly state: 'ready'; readonly experience: Experience }

const fewEars = 5
const mark = 'learning'

/**
 * Whether the forecast on this page learns from the team's own results. What was loaded once stays, also without a link,
 * until the page is left; that it is on stands in the address.
 */
export default function LearningSwitch(props: LearningSwitchProps) {
  const { me } = useBoard()
  return rolesWithSeries.includes(me.role) ? <Switch {...props} /> : null
}

function Switch({ option, onLearn }: LearningSwitchProps) {
  const { caseId } = useBoard()
  const { learning: words } = useMessages()
  const [isOn, setOn] = useState(() => markInAddress(mark) === 'on')
  const [loaded, setLoaded] = useState<Loaded>({ state: isOn ? 'asking' : 'not-asked' })
  const isAsked = loaded.state === 'asking'
  useEffect(() => {
    if (!isAsked) return
    const leaving = new AbortController()
    askApi(`/api/cases/${caseId}/experience`, ExperienceAnswer, { signal: leaving.signal }).then(
      (answer) => setLoaded({ state: 'ready', experience: experienceFrom(answer) }),
      (error: unknown) => {
        if (!leaving.signal.aborted) setLoaded({ state: 'failed', reason: sentenceOfFault(error) })
      },
    )
    return () => leaving.abort()
  }, [caseId, isAsked])
  const experience = isOn && loaded.state === 'ready' ? loaded.experience : undefined
  useEffect(() => onLearn(experience), [experience, onLearn])
  const turn = (on: boolean) => {
    setOn(on)
    putMarkInAddress(mark, on ? 'on' : undefined)
    if (on && loaded.state !== 'ready') setLoaded({ state: 'asking' })
  }
  return (
    <section className={styles.learning} aria-label={words.title}>
      <label className={styles.choice}>
        <input type="checkbox" checked={isOn} onChange={({ target }) => turn(target.checked)} />
        {words.use}
      </label>
      <div role="status">{isOn ? <Said loaded={loaded} option={option} /> : <p>{words.off}</p>}</div>
      {isOn && loaded.state === 'failed' && <Button onClick={() => turn(true)}>{words.again}</Button>}
    </section>
  )
}

function Said({ loaded, option }: { readonly loaded: Loaded; readonly option: DeviceOption | undefined }) {
  const { learning: words } = useMessages()
  if (loaded.state === 'failed') return <p>{loaded.reason}</p>
  if (loaded.state !== 'ready') return <p>{words.loading}</p>
  if (option === undefined) return <p>{words.noOption}</p>
  const n = earsWith(option, loaded.experience).length
  return (
    <>
      <p>{words.speaking(n)}</p>
      {n > 0 && n < fewEars && <p>{words.few}</p>}
      <p>{words.sealing}</p>
    </>
  )
}

/** The server left one ear a patient and tells nobody whose: each is a patient of its own here. */
const experienceFrom = ({ ears }: ExperienceAnswer): Experience => ({
  series: ears.map(
    ({ deviceClass, couplingSite, gains }, index): SeriesOutcome => ({
      patient: String(index),
      deviceClass,
      couplingSite,
      gainDb: new Map(gains.map(({ frequency, gainDb }) => [frequency, gainDb])),
      beyondGroupDb: new Map(gains.map(({ frequency, beyondGroupDb }) => [frequency, beyondGroupDb])),
    }),
  ),
})
