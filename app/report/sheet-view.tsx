'use client'

import { type CSSProperties, useId } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import { useMessages } from '@/app/messages/for-report.ts'
import styles from './sheet.module.css'
import type { Block, Chart, Sheet, Table } from './sheet.ts'
import tables from './sheet-table.module.css'
import { useOnePage } from './use-one-page.ts'

interface SheetViewProps {
  readonly sheet: Sheet
  readonly pseudonym: string
  /** in words */
  readonly generated: string
}

/** Height of the axis text on paper in CSS pixels: the smallest that is read at arm's length. */
const paperChartText = 9

/** One page of the report, as it is printed. */
export function SheetView({ sheet, pseudonym, generated }: SheetViewProps) {
  const { words } = useMessages()
  const headingId = useId()
  const onePage = useOnePage(sheet.kind !== 'appendix')
  return (
    <section
      ref={onePage}
      className={styles.sheet}
      data-theme="clinic"
      data-sheet={sheet.kind}
      aria-labelledby={headingId}
    >
      <header className={styles.head}>
        <h2 id={headingId} className={styles.title}>
          {words.labelled(pseudonym, sheet.heading)}
        </h2>
        <p className={styles.fine}>{generated}</p>
      </header>
      {sheet.blocks.map((block) => (
        <BlockView key={keyOf(block)} block={block} />
      ))}
      <footer className={styles.cautions}>
        {sheet.cautions.map((caution) => (
          <p key={caution}>{caution}</p>
        ))}
      </footer>
    </section>
  )
}

function keyOf(block: Block): string {
  switch (block.kind) {
    case 'table':
      return block.id
    case 'list':
      return block.title
    default:
      return block.kind
  }
}

function BlockView({ block }: { readonly block: Block }) {
  switch (block.kind) {
    case 'warning':
      return (
        <p className={styles.warning}>
          <span aria-hidden="true">△ </span>
          {block.text}
        </p>
      )
    case 'facts':
      return (
        <dl className={styles.facts}>
          {block.facts.map(([name, value]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )
    case 'charts':
      return <Charts charts={block.charts} />
    case 'table':
      return <TableView table={block.table} tone={block.tone} />
    case 'list':
      return <ListView block={block} />
    default:
      return block satisfies never
  }
}

function Charts({ charts }: { readonly charts: readonly Chart[] }) {
  const { report } = useMessages()
  return (
    <div className={styles.charts}>
      {charts.map(({ label, layers }) => (
        <figure key={label}>
          <figcaption>{label}</figcaption>
          {layers.length === 0 ? (
            <p className={styles.fine}>{report.notMeasuredYet}</p>
          ) : (
            <AudiogramChart label={label} layers={layers} textSize={paperChartText} />
          )}
        </figure>
      ))}
    </div>
  )
}

function TableView({ table, tone }: { readonly table: Table; readonly tone: 'plain' | 'dense' }) {
  const whole = table.columns.reduce((sum, { share }) => sum + share, 0)
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling table has to be reached by keyboard
    <section className={tables.scroll} tabIndex={0} aria-label={table.caption}>
      <table className={tables.table} data-tone={tone}>
        <caption>{table.caption}</caption>
        <colgroup>
          {table.columns.map(({ name, share }) => (
            <col key={name} style={{ '--share': `${(100 * share) / whole}%` } as CSSProperties} />
          ))}
        </colgroup>
        <thead>
          <tr>
            {table.columns.map(({ name, align }) => (
              <th key={name} scope="col" data-align={align}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        {table.groups.map(({ name, rows }) => (
          <tbody key={name ?? ''}>
            {name !== undefined && (
              <tr>
                <th className={tables.group} scope="rowgroup" colSpan={table.columns.length}>
                  {name}
                </th>
              </tr>
            )}
            {rows.map(({ id, cells: [first, ...rest] }) => (
              <tr key={id}>
                <th scope="row">{first}</th>
                {rest.map((cell, index) => (
                  <td key={table.columns[index + 1]?.name} data-align={table.columns[index + 1]?.align}>
                    {cell}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </section>
  )
}

function ListView({ block }: { readonly block: Extract<Block, { kind: 'list' }> }) {
  return (
    <section className={styles.list} data-tone={block.tone}>
      <h3>{block.title}</h3>
      <ul>
        {block.entries.map(({ id, text, under = [] }) => (
          <li key={id}>
            {text}
            {under.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </li>
        ))}
      </ul>
    </section>
  )
}
