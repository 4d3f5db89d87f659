import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { findingText } from '@/lib/audiometry/finding-text.ts'
import type { Finding, Severity } from '@/lib/audiometry/findings.ts'
import styles from './findings-panel.module.css'
import { type FindingGroup, grouped } from './review.ts'

const toneOf: Readonly<Record<Severity, Tone>> = { urgent: 'stop', check: 'caution', remark: 'quiet' }

/** What a careful colleague would point at in the tests shown: what, on which numbers, what to do, from which source. */
export function FindingsPanel({ findings }: { findings: readonly Finding[] | undefined }) {
  const { hearing } = useMessages()
  const words = hearing.findings
  return (
    <section className={styles.panel} aria-label={words.heading}>
      <h3 className={styles.heading}>{words.heading}</h3>
      {findings === undefined && <p className={styles.none}>{words.needsBoth}</p>}
      {findings?.length === 0 && <p className={styles.none}>{words.none}</p>}
      <ul>
        {grouped(findings ?? []).map((group) => (
          <FindingItem key={keyOf(group[0])} group={group} />
        ))}
      </ul>
    </section>
  )
}

const keyOf = ({ id, where }: Finding): string => `${id} ${where.ear} ${where.route}`

/** One rule about one ear: the first place in the summary, every place with its numbers below. */
function FindingItem({ group }: { group: FindingGroup }) {
  const { hearing } = useMessages()
  const words = hearing.findings
  const [first, ...others] = group
  const text = findingText(first)
  const elsewhere = others.flatMap(({ where }) => (where.frequency === undefined ? [] : [where.frequency]))
  return (
    <li className={styles.finding} data-finding={first.id}>
      <details>
        <summary className={styles.summary}>
          <StateSign tone={toneOf[first.severity]}>{words.severity[first.severity]}</StateSign> {text.what}
          {elsewhere.length > 0 && ` ${words.alsoAt(elsewhere)}`}
        </summary>
        {group.map((finding) => (
          <p key={finding.where.frequency}>{findingText(finding).why}</p>
        ))}
        <p>{text.whatToDo}</p>
        <p className={styles.source}>
          {first.source} ({hearing.measures.statusWords[first.status]}
          {first.reservation === undefined ? '' : `; ${first.reservation}`})
        </p>
      </details>
    </li>
  )
}
