'use client'

import { useMessages } from '@/app/messages/for-meeting.ts'
import { clockOf } from '@/app/messages/moments.ts'
import { useNow, useViewportSize } from '@/app/screen/clock.ts'
import { FittedText } from '@/app/screen/fitted-text.tsx'
import { LinkSign } from '@/app/screen/link-sign.tsx'
import { OctaveRule } from '@/app/screen/octave-rule.tsx'
import { Stage, tallSurface, wideSurface } from '@/app/screen/stage.tsx'
import type { CaseSummary, ProgrammeDetail } from '@/lib/interchange/api.ts'
import { minutesUntil, plannedTimeOf } from './planned-time.ts'
import type { FollowLink } from './programme-follower.ts'
import styles from './waiting-screen.module.css'

/** Cases named after the next one: more would be small print at ten metres. */
const casesAfter = 3
const tickMs = 1000

interface WaitingScreenProps {
  readonly detail: ProgrammeDetail
  readonly link: FollowLink
  /** the case that is on and not here yet */
  readonly coming?: CaseSummary | undefined
  /** why it cannot be shown */
  readonly fault?: string | undefined
  readonly theme?: 'theatre'
}

/** Between two cases: the clock, what comes next and when, and what comes after that. */
export function WaitingScreen({ detail, link, coming, fault, theme }: WaitingScreenProps) {
  const { width, height } = useViewportSize()
  const surface = width >= height ? wideSurface : tallSurface
  const now = useNow(tickMs)
  const { shell } = useMessages()
  const { cases, next } = detail
  const place = cases.findIndex(({ id }) => id === next)
  const after = coming === undefined && place >= 0 ? cases.slice(place + 1, place + 1 + casesAfter) : []
  return (
    <Stage surface={surface} theme={theme}>
      <div className={styles.plate} data-upright={surface === tallSurface}>
        <header className={styles.head}>
          <p className={styles.programme}>{detail.programme.label}</p>
          <time className={styles.clock}>{clockOf(now.toISOString())}</time>
        </header>
        <section className={styles.next}>
          <Coming summary={coming ?? cases[place]} isOn={coming !== undefined} detail={detail} now={now} />
          {fault !== undefined && (
            <p className={styles.fault} role="alert">
              {fault}
            </p>
          )}
        </section>
        <OctaveRule />
        <After cases={after} now={now} />
        <footer className={styles.foot}>
          <LinkSign loss={link} />
          <span className={styles.product}>{shell.productName}</span>
        </footer>
      </div>
    </Stage>
  )
}

interface ComingProps {
  readonly summary: CaseSummary | undefined
  readonly isOn: boolean
  readonly detail: ProgrammeDetail
  readonly now: Date
}

function Coming({ summary, isOn, detail: { onNow, cases }, now }: ComingProps) {
  const { meeting, words } = useMessages()
  const { waiting } = meeting
  if (summary === undefined) {
    const nothing = cases.length === 0 ? waiting.nothingPlanned : waiting.thatWasAll
    return <h1 className={styles.remark}>{onNow.kind === 'elsewhere' ? waiting.elsewhere : nothing}</h1>
  }
  const { label, ear, plannedAt, breakBefore } = summary
  return (
    <>
      {onNow.kind === 'elsewhere' && <p className={styles.label}>{waiting.elsewhere}</p>}
      {!isOn && breakBefore !== '' && <p className={styles.break}>{breakBefore}</p>}
      <p className={styles.label}>{isOn ? waiting.comesOn : breakBefore === '' ? waiting.next : waiting.afterBreak}</p>
      <h1 className={styles.name}>
        <FittedText largest="vast" continues="">
          {label}
        </FittedText>
      </h1>
      <p className={styles.facts}>
        {ear !== null && <span className={styles.ear}>{words.ear[ear]}</span>}
        {!isOn && plannedAt !== null && <PlannedTime plannedAt={plannedAt} now={now} />}
      </p>
    </>
  )
}

function PlannedTime({ plannedAt, now }: { plannedAt: string; now: Date }) {
  const { waiting } = useMessages().meeting
  const minutes = minutesUntil(plannedAt, now)
  const time = plannedTimeOf(plannedAt, now)
  return <span>{minutes === undefined ? waiting.planned(time) : waiting.plannedIn(time, minutes)}</span>
}

function After({ cases, now }: { cases: readonly CaseSummary[]; now: Date }) {
  const { waiting } = useMessages().meeting
  if (cases.length === 0) return <div />
  return (
    <div className={styles.after}>
      <p className={styles.label}>{waiting.afterThat}</p>
      <ol>
        {cases.map(({ id, label, plannedAt }) => (
          <li key={id}>
            {plannedAt !== null && <time>{plannedTimeOf(plannedAt, now)}</time>}
            <span className={styles.one}>{label}</span>
          </li>
        ))}
      </ol>
    </div>
  )
}
