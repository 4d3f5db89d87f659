import { useMemo, useState } from 'react'
import { EarSign, earSigns } from '@/app/components/ear-sign.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { VisuallyHidden } from '@/app/components/visually-hidden.tsx'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { CaseMeasures } from './case-measures.ts'
import type { MeasureCell, MeasureRow } from './measure-row.ts'
import { measureRows } from './measure-rows.ts'
import styles from './measures-panel.module.css'
import { type Convention, conventional, conventions, quotedFirst, useConvention } from './quoted-convention.ts'
import { SourceLine } from './source-line.tsx'

const ears: readonly Ear[] = ['right', 'left']

interface MeasuresPanelProps {
  readonly of: CaseMeasures
  /** `quoted`: what is quoted of the test itself; `further`: speech, device, change and both ears together */
  readonly part: 'quoted' | 'further'
}

/** The few numbers that are quoted of each ear; each opens how it was computed. */
export function MeasuresPanel({ of, part }: MeasuresPanelProps) {
  const messages = useMessages()
  const { headings } = messages.measures
  const [convention, choose] = useConvention()
  const rows = useMemo(() => measureRows(of, messages), [of, messages])
  const further = rows.filter(({ id }) => !conventional.has(id))
  if (part === 'further' && further.length === 0) return null
  return (
    <section
      className={styles.panel}
      aria-label={headings[part]}
      data-part={part}
      data-right={of.ears.right.records.unaided?.state}
      data-left={of.ears.left.records.unaided?.state}
    >
      <header className={styles.head}>
        <h3 className={styles.heading}>{headings[part]}</h3>
        {part === 'quoted' && <ConventionChoice chosen={convention} onChoose={choose} />}
      </header>
      {part === 'quoted' ? <QuotedRows of={of} rows={rows} convention={convention} /> : <Rows rows={further} />}
    </section>
  )
}

interface ConventionChoiceProps {
  readonly chosen: Convention
  readonly onChoose: (convention: Convention) => void
}

function ConventionChoice({ chosen, onChoose }: ConventionChoiceProps) {
  const { quoteBy, conventionNames } = useMessages().measures
  return (
    <label className={styles.choice}>
      {quoteBy}
      <select
        value={chosen}
        onChange={(event) => onChoose(conventions.find((name) => name === event.currentTarget.value) ?? chosen)}
      >
        {conventions.map((name) => (
          <option key={name} value={name}>
            {conventionNames[name]}
          </option>
        ))}
      </select>
    </label>
  )
}

interface QuotedRowsProps {
  readonly of: CaseMeasures
  readonly rows: readonly MeasureRow[]
  readonly convention: Convention
}

/** What the chosen convention quotes, and behind one press the same by the others. */
function QuotedRows({ of, rows, convention }: QuotedRowsProps) {
  const { otherConventions } = useMessages().measures
  const [open, setOpen] = useState(false)
  const first = quotedFirst[convention]
  const others = rows.filter(({ id }) => conventional.has(id) && !first.includes(id))
  return (
    <>
      <div className={styles.columns}>
        {ears.map((ear) => (
          <EarHead key={ear} ear={ear} test={of.ears[ear].records.unaided} />
        ))}
      </div>
      <Rows rows={first.flatMap((id) => rows.find((row) => row.id === id) ?? [])} />
      {others.length > 0 && (
        <details className={styles.others} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary className={styles.othersHead}>
            <span className={styles.name}>{otherConventions}</span>
          </summary>
          {open && <Rows rows={others} />}
        </details>
      )}
    </>
  )
}

function Rows({ rows }: { rows: readonly MeasureRow[] }) {
  return (
    <ul className={styles.rows}>
      {rows.map((row) => (
        <MeasureItem key={row.id} row={row} />
      ))}
    </ul>
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
  const [open, setOpen] = useState(false)
  const name = measures.names[row.id]
  return (
    <li className={styles.row} data-measure={row.id}>
      <details onToggle={(event) => setOpen(event.currentTarget.open)}>
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
        {open && <How row={row} />}
      </details>
    </li>
  )
}

/** Made only while it is open: it changes with every number. */
function How({ row }: { row: MeasureRow }) {
  return (
    <div className={styles.how}>
      {row.kind === 'case' ? (
        <CellHow cell={row.cell} />
      ) : (
        ears.map((ear) => <EarHow key={ear} ear={ear} cell={row.cells[ear]} />)
      )}
      <Sources row={row} />
    </div>
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
