import styles from './octave-rule.module.css'

const octavesHz = [125, 250, 500, 1000, 2000, 4000, 8000, 16_000] as const
/** Half-octaves of the audiometric list. */
const betweenHz = [750, 1500, 3000, 6000, 11_200] as const
const width = 1728
const height = 44

const xOf = (hz: number): number => (Math.log2(hz / 125) / 7) * width

/** The frequency axis of the audiogram as an ornament: one stroke an octave, the same distance each. */
export function OctaveRule() {
  return (
    <svg className={styles.rule} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <path d={`M0 1H${width}`} />
      <path d={octavesHz.map((hz) => `M${inside(xOf(hz))} 0V${height}`).join('')} />
      <path d={betweenHz.map((hz) => `M${xOf(hz)} 0V${height / 2}`).join('')} />
    </svg>
  )
}

/** Keeps the outermost strokes whole. */
const inside = (x: number): number => Math.min(Math.max(x, 1), width - 1)
