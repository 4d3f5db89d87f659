'use client'

import { type ReactNode, useRef, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Pane } from '@/app/components/pane.tsx'
import { useMessages } from '@/app/messages/for-series.ts'
import styles from './figure.module.css'
import { savePng, saveSvg } from './save-chart.ts'

interface FigureProps {
  readonly title: string
  /** of the file that it is saved as */
  readonly name: string
  readonly note: string
  /** what is not in it, and what is said of it */
  readonly remarks?: ReactNode
  /** an svg */
  readonly chart: ReactNode
  readonly table: ReactNode
  readonly controls?: ReactNode
}

/** A chart with the table of its numbers, to be saved as a picture. */
export function Figure({ title, name, note, remarks, chart, table, controls }: FigureProps) {
  const { series } = useMessages()
  const holder = useRef<HTMLDivElement>(null)
  const [failed, setFailed] = useState(false)
  const svg = () => holder.current?.querySelector('svg') ?? undefined
  const onPng = async () => {
    const of = svg()
    setFailed(of === undefined || !(await savePng(of, name)))
  }
  return (
    <Pane
      title={title}
      actions={
        <>
          <Button tone="quiet" onClick={() => saveSvg(svg(), name)}>
            {series.saveSvg}
          </Button>
          <Button tone="quiet" onClick={() => void onPng()}>
            {series.savePng}
          </Button>
        </>
      }
    >
      {controls}
      {failed && <p role="alert">{series.saveFailed}</p>}
      <div ref={holder} className={styles.chart}>
        {chart}
      </div>
      {remarks !== undefined && <div className={styles.remarks}>{remarks}</div>}
      <p className={styles.fine}>{note}</p>
      <details>
        <summary className={styles.summary}>{series.table}</summary>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling table has to be reached by keyboard */}
        <section className={styles.scroll} tabIndex={0} aria-label={title}>
          {table}
        </section>
      </details>
    </Pane>
  )
}
