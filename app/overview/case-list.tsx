import Link from 'next/link'
import type { ReactNode } from 'react'
import { calendarDayHere } from '@/app/calendar-day.ts'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { plannedTimeOf } from '@/app/meeting/planned-time.ts'
import { useMessages } from '@/app/messages/for-overview.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { dueness } from '@/lib/board/visit-plan.ts'
import type { CaseSummary } from '@/lib/interchange/api.ts'
import styles from './case-list.module.css'

interface CaseListProps {
  readonly cases: readonly CaseSummary[]
  /** the case that is on */
  readonly onId: string | undefined
  /** opened from here, a board says when the meeting goes on to another case */
  readonly inMeeting?: boolean
  /** what may be done with a case here */
  readonly acts?: ((summary: CaseSummary) => ReactNode) | undefined
}

/** Cases in their order, each with what one has to know before opening it. */
export function CaseList({ cases, onId, inMeeting = false, acts }: CaseListProps) {
  return (
    <ol className={styles.list}>
      {cases.map((summary) => (
        <li key={summary.id} className={styles.entry}>
          {summary.breakBefore !== '' && <p className={styles.break}>{summary.breakBefore}</p>}
          <div className={styles.row} aria-current={summary.id === onId ? 'true' : undefined}>
            <CaseRow summary={summary} isOn={summary.id === onId} inMeeting={inMeeting} />
            {acts?.(summary)}
          </div>
        </li>
      ))}
    </ol>
  )
}

interface CaseRowProps {
  readonly summary: CaseSummary
  readonly isOn: boolean
  readonly inMeeting: boolean
}

function CaseRow({ summary, isOn, inMeeting }: CaseRowProps) {
  const { overview, words } = useMessages()
  const { id, label, phase, ear, role, plannedAt } = summary
  return (
    <>
      <h3 className={styles.name}>
        <Link href={inMeeting ? `/case/${id}?meeting` : `/case/${id}`}>{label}</Link>
      </h3>
      <p className={styles.states}>
        {plannedAt !== null && (
          <time className={styles.planned} dateTime={plannedAt}>
            {plannedTimeOf(plannedAt, new Date())}
          </time>
        )}
        {isOn && (
          <StateSign tone="accent" sign="▶">
            {overview.onNow}
          </StateSign>
        )}
        {phase !== null && (
          <StateSign tone={phase === 'in-theatre' ? 'accent' : 'quiet'}>{words.phase[phase]}</StateSign>
        )}
        {ear !== null && <EarSign ear={ear} />}
      </p>
      <dl className={styles.facts}>
        <Fact name={overview.device} value={deviceOf(summary, words)} />
        <Fact name={overview.openQuestions} value={String(summary.openQuestions)} />
        <Fact
          name={overview.contingenciesMet}
          value={String(summary.contingenciesMet)}
          calls={summary.contingenciesMet > 0}
        />
        <NextVisit day={summary.nextVisitDue} />
        <Fact name={overview.yourRole} value={words.role[role]} />
      </dl>
    </>
  )
}

type Words = ReturnType<typeof useMessages>['words']

function deviceOf({ deviceClass, couplingSite }: CaseSummary, words: Words): string | undefined {
  if (deviceClass === null) return undefined
  const site = couplingSite === null || couplingSite === 'skull' ? [] : [words.couplingSite[couplingSite]]
  return [words.deviceClass[deviceClass], ...site].join(', ')
}

/** A day that is near or past calls for somebody. */
function NextVisit({ day }: { readonly day: string | null }) {
  const { overview } = useMessages()
  if (day === null) return <Fact name={overview.nextVisit} value={undefined} />
  const due = dueness(day, calendarDayHere(new Date()))
  return (
    <Fact
      name={overview.nextVisit}
      value={overview.visitDay(calendarDayOf(day), overview.dueness[due])}
      calls={due !== 'later'}
    />
  )
}

interface FactProps {
  readonly name: string
  readonly value: string | undefined
  /** something to act on */
  readonly calls?: boolean
}

function Fact({ name, value, calls = false }: FactProps) {
  const { overview } = useMessages()
  return (
    <div className={styles.fact} data-calls={calls}>
      <dt>{name}</dt>
      <dd>{value ?? overview.notYet}</dd>
    </div>
  )
}
