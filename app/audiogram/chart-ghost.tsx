import type { Ear } from '@/lib/units/frequencies.ts'
import styles from './chart-ghost.module.css'
import { PlacedMark } from './chart-layers.tsx'
import { type ChartFrame, symbolRadius, xOf, yOf } from './geometry.ts'
import { type ChartMark, levelOf } from './layers.ts'

/** A point that is about to be entered, with what it would say. */
export interface Ghost {
  readonly ear: Ear
  readonly mark: ChartMark
  readonly readout: string
}

/** The sign where it would go, hair lines to both axes, and the values in words above the finger. */
export function ChartGhost({ ghost, frame }: { ghost: Ghost; frame: ChartFrame }) {
  const level = levelOf(ghost.mark.point)
  if (level === undefined) return null
  const { plot, textSize } = frame
  const x = xOf(frame, ghost.mark.frequency)
  const y = yOf(frame, level)
  const width = ghost.readout.length * textSize * 0.6 + textSize
  const left = Math.max(plot.left, Math.min(plot.left + plot.width - width, x - width / 2))
  const lift = symbolRadius(frame) * 2 + textSize * 2
  const top = y - lift < plot.top ? y + lift - textSize * 1.7 : y - lift
  return (
    <g className={styles.ghost} data-ghost={`${ghost.mark.frequency}.${level}`}>
      <path className={styles.hair} d={`M${plot.left} ${y}h${plot.width}M${x} ${plot.top}v${plot.height}`} />
      <PlacedMark mark={ghost.mark} layer={{ ear: ghost.ear, style: 'current' }} frame={frame} />
      <rect className={styles.plate} x={left} y={top} width={width} height={textSize * 1.7} />
      <text className={styles.readout} x={left + width / 2} y={top + textSize * 1.2} textAnchor="middle">
        {ghost.readout}
      </text>
    </g>
  )
}
