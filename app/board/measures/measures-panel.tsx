import { useMemo } from 'react'
import { EarSign, earSigns } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { VisuallyHidden } from '@/app/components/visually-hidden.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { calendarDayOf } from '@/app/screen/formats.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { CaseMeasures } from './case-measures.ts'
import type { MeasureCell, MeasureId, MeasureRow } from './measure-row.ts'
import { measureRows } from './measure-rows.ts'
import styles from './measures-panel.module.css'
import { SourceLine } from './source-line.tsx'

const ears: readonly Ear[] = ['right', 'left']

interface MeasuresPanelProps {
  readonly of: CaseMeasures
  /** `quoted`: what is quoted of the test itself; `further`: speech, device, change and both ears together */
  readonly part: 'quoted' | 'further'
}

const quoted: readonly MeasureId[] = ['air-who', 'air-aao', 'bone-aao', 'gap', 'type', 'grade', 'high']

/** The few numbers that are quoted of each ear; each opens how it was computed. */
export function MeasuresPanel({ of, part }: MeasuresPanelProps) {
  const messages = useMessages()
  const { headings } = messages.measures
  const rows = useMemo(() => measureRows(of, messages), [of, messages])
  const listed = rows.filter(({ id }) => quoted.includes(id) === (part === 'quoted'))
  if (part === 'further' && listed.length === 0) return null
  return (
    <section
      className={styles.panel}
      aria-label={headings[part]}
      data-part={part}
      data-right={of.ears.right.records.unaided?.state}
      data-left={of.ears.left.records.unaided?.state}
    >
      <h3 className={styles.heading}>{headings[part]}</h3>
      {part === 'quoted' && (
        <div className={styles.columns}>
          {ears.map((ear) => (
            <EarHead key={ear} ear={ear} test={of.ears[ear].records.unaided} />
          ))}
        </div>
      )}
      <ul className={styles.rows}>
        {listed.map((row) => (
          <MeasureItem key={row.id} row={row} />
        ))}
      </ul>
    </section>
  )
}

/** Which test the numbers without a device are of; one that is not current says so here. */
function EarHead({ ear, test }: { ear: Ear; test: HearingTest | undefined }) {
  const { measures, words } = useMessages()
  return (
    <div className={styles.ear}>
      <EarSign ear={ear} />
      <span className={styles.day}>{test === undefined ? measures.notTested : calendarDayOf(test.performedOn)}</span>
      {test !== undefined && test.state !== 'current' && (
        <StateSign tone={test.state === 'superseded' ? 'superseded' : 'error'}>{words.testState[test.state]}</StateSign>
      )}
    </div>
  )
}

function MeasureItem({ row }: { row: MeasureRow }) {
  const { measures } = useMessages()
  const name = measures.names[row.id]
  return (
    <li className={styles.row} data-measure={row.id}>
      <details>
        <summary className={styles.summary}>
          <span className={styles.name}>
            {name} <span className={styles.convention}>{row.convention}</span>
          </span>
          <span className={styles.columns}>
            {row.kind === 'case' ? (
              <CellValue cell={row.cell} />
            ) : (
              ears.map((ear) => <CellValue key={ear} ear={ear} cell={row.cells[ear]} />)
            )}
          </span>
          <VisuallyHidden>{measures.how}</VisuallyHidden>
        </summary>
        <div className={styles.how}>
          {row.kind === 'case' ? (
            <CellHow cell={row.cell} />
          ) : (
            ears.map((ear) => <EarHow key={ear} ear={ear} cell={row.cells[ear]} />)
          )}
          <Sources row={row} />
        </div>
      </details>
    </li>
  )
}

function CellValue({ ear, cell }: { ear?: Ear; cell: MeasureCell | undefined }) {
  const { measures } = useMessages()
  return (
    <span className={styles.cell} data-ear={ear}>
      {ear !== undefined && <VisuallyHidden>{`${measures.ears[ear]}: `}</VisuallyHidden>}
      {ear !== undefined && (
        <span className={styles.sign} aria-hidden="true">
          {earSigns[ear]}{' '}
        </span>
      )}
      {cell === undefined ? (
        <span className={styles.none}>{measures.notTested}</span>
      ) : (
        <b className={styles.value}>{cell.value}</b>
      )}
      {cell?.remark !== undefined && <span className={styles.remark}>{cell.remark}</span>}
    </span>
  )
}

function EarHow({ ear, cell }: { ear: Ear; cell: MeasureCell | undefined }) {
  if (cell === undefined || cell.how.length === 0) return null
  return (
    <div>
      <EarSign ear={ear} />
      <CellHow cell={cell} />
    </div>
  )
}

function CellHow({ cell }: { cell: MeasureCell }) {
  return (
    <dl className={styles.lines}>
      {cell.how.map(({ name, text }) => (
        <div key={`${name} ${text}`} className={styles.line}>
          <dt>{name}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  )
}

/** The sources of both ears are the same rules, so each stands once. */
function Sources({ row }: { row: MeasureRow }) {
  const cells = row.kind === 'case' ? [row.cell] : [row.cells.right, row.cells.left]
  const sources = new Map(cells.flatMap((cell) => cell?.sources ?? []).map((source) => [source.source, source]))
  return [...sources.values()].map((source) => (
    <p key={source.source}>
      <SourceLine of={source} />
    </p>
  ))
}
