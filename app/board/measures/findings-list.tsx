import { useEffect, useRef } from 'react'
import { FindingSignInline } from '@/app/audiogram/finding-sign.tsx'
import { Button } from '@/app/components/button.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Finding, Severity } from '@/lib/audiometry/findings.ts'
import { type FindingGroup, groupedFindings } from './finding-groups.ts'
import { findingText } from './finding-text.ts'
import styles from './findings-list.module.css'
import { SourceLine } from './source-line.tsx'

const toneOf: Readonly<Record<Severity, Tone>> = { urgent: 'stop', check: 'caution', remark: 'quiet' }

interface FindingsListProps {
  /** by urgency; undefined without a test without a device */
  readonly findings: readonly Finding[] | undefined
  /** the finding whose mark was pressed on the chart; each press is an object of its own */
  readonly wanted: { readonly key: string } | undefined
  readonly onShow: (finding: Finding) => void
}

/** What a careful colleague would point at: what, where, why, what to do, source; the urgent first. */
export function FindingsList({ findings, wanted, onShow }: FindingsListProps) {
  const { findings: words } = useMessages().measures
  const list = useRef<HTMLUListElement>(null)
  useEffect(() => {
    if (wanted === undefined) return
    const item = list.current?.querySelector<HTMLDetailsElement>(`details[data-key="${CSS.escape(wanted.key)}"]`)
    if (item === null || item === undefined) return
    item.open = true
    item.querySelector('summary')?.focus()
  }, [wanted])
  return (
    <section className={styles.panel} aria-label={words.heading}>
      <h3 className={styles.heading}>{words.heading}</h3>
      {findings === undefined && <p className={styles.none}>{words.noTest}</p>}
      {findings?.length === 0 && <p className={styles.none}>{words.none}</p>}
      <ul ref={list}>
        {groupedFindings(findings ?? []).map((group) => (
          <FindingItem key={group.key} group={group} onShow={onShow} />
        ))}
      </ul>
    </section>
  )
}

interface FindingItemProps extends Pick<FindingsListProps, 'onShow'> {
  readonly group: FindingGroup
}

/** One rule about one ear: the first place in the summary, every place with its numbers below. */
function FindingItem({ group: { key, findings }, onShow }: FindingItemProps) {
  const { findings: words } = useMessages().measures
  const [first, ...others] = findings
  const text = findingText(first, words.sentences)
  const elsewhere = others.flatMap(({ where }) => where.frequency ?? [])
  return (
    <li className={styles.finding} data-finding={first.id} data-severity={first.severity}>
      <details data-key={key}>
        <summary className={styles.summary}>
          <span>
            <FindingSignInline severity={first.severity} />{' '}
            <StateSign tone={toneOf[first.severity]} sign="">
              {words.severity[first.severity]}
            </StateSign>{' '}
            {text.what}
            {elsewhere.length > 0 && ` ${words.alsoAt(elsewhere)}`}
          </span>
        </summary>
        <dl className={styles.facts}>
          <dt>{words.whatToDo}</dt>
          <dd>{text.whatToDo}</dd>
          <dt>{words.why}</dt>
          {findings.map((finding) => (
            <dd key={finding.where.frequency} className={styles.why}>
              {findingText(finding, words.sentences).why} <ShowButton finding={finding} onShow={onShow} />
            </dd>
          ))}
        </dl>
        <p className={styles.source}>
          <SourceLine of={first} />
        </p>
      </details>
    </li>
  )
}

function ShowButton({ finding, onShow }: { finding: Finding; onShow: FindingsListProps['onShow'] }) {
  const { findings: words } = useMessages().measures
  const { ear, frequency } = finding.where
  if (ear === undefined || frequency === undefined) return null
  const place = words.place(frequency)
  return (
    <Button tone="quiet" aria-label={words.show(place)} onClick={() => onShow(finding)}>
      {place}
    </Button>
  )
}
