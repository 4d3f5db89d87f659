import Link from 'next/link'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { dayOf } from '@/app/messages/moments.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { CaseSummary } from '@/lib/interchange/api.ts'
import styles from './case-list.module.css'

/** Cases in their order, each with what one has to know before opening it. */
export function CaseList({ cases }: { cases: readonly CaseSummary[] }) {
  return (
    <ol className={styles.list}>
      {cases.map((summary) => (
        <li key={summary.id} className={styles.row}>
          <CaseRow summary={summary} />
        </li>
      ))}
    </ol>
  )
}

function CaseRow({ summary }: { summary: CaseSummary }) {
  const { overview, words } = useMessages()
  const { id, label, phase, ear, role } = summary
  return (
    <>
      <h3 className={styles.name}>
        <Link href={`/case/${id}`}>{label}</Link>
      </h3>
      <p className={styles.states}>
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
        <Fact
          name={overview.nextVisit}
          value={summary.nextVisitDue === null ? undefined : dayOf(summary.nextVisitDue)}
        />
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
