import type { ReactNode } from 'react'
import styles from './plot.module.css'

/** Units of every chart's drawing; it is scaled to the width that there is. */
export const box = { width: 640, height: 320, left: 64, right: 16, top: 14, bottom: 46 } as const

export type Scale = (value: number) => number

export const across = (share: number): number => box.left + share * (box.width - box.left - box.right)

/** @param low value at the lower edge; @param high at the upper edge */
export const upwards =
  (low: number, high: number): Scale =>
  (value) => {
    const share = Math.min(1, Math.max(0, (value - low) / (high - low)))
    return box.height - box.bottom - share * (box.height - box.top - box.bottom)
  }

interface PlotProps {
  readonly x: { readonly label: string; readonly ticks: readonly { readonly at: number; readonly text: string }[] }
  readonly y: {
    readonly label: string
    readonly scale: Scale
    readonly ticks: readonly number[]
    readonly textOf: (tick: number) => string
    /** drawn stronger than the others */
    readonly zero?: number
  }
  readonly children: ReactNode
}

/** Axes with their units. The numbers stand in the table beside it, so that nobody has to read them from the drawing. */
export function Plot({ x, y, children }: PlotProps) {
  const bottom = box.height - box.bottom
  return (
    <svg className={styles.plot} viewBox={`0 0 ${box.width} ${box.height}`} aria-hidden="true">
      {y.ticks.map((tick) => (
        <g key={tick}>
          <path
            className={tick === y.zero ? styles.zero : styles.grid}
            d={`M${box.left} ${y.scale(tick)}H${box.width - box.right}`}
          />
          <text className={styles.tick} x={box.left - 6} y={y.scale(tick) + 5} textAnchor="end">
            {y.textOf(tick)}
          </text>
        </g>
      ))}
      {x.ticks.map(({ at, text }) => (
        <text key={text} className={styles.tick} x={at} y={bottom + 18} textAnchor="middle">
          {text}
        </text>
      ))}
      <text className={styles.label} x={(box.left + box.width - box.right) / 2} y={box.height - 6} textAnchor="middle">
        {x.label}
      </text>
      <text className={styles.label} x={-(box.top + bottom) / 2} y={16} transform="rotate(-90)" textAnchor="middle">
        {y.label}
      </text>
      {children}
    </svg>
  )
}
