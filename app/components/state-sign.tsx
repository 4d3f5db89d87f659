import styles from './state-sign.module.css'

export type Tone = 'current' | 'superseded' | 'error' | 'good' | 'caution' | 'stop' | 'accent' | 'quiet'

/** The sign that stands beside the colour, so that neither is needed to read the other. */
const signs: Record<Tone, string> = {
  current: '●',
  superseded: '◌',
  error: '✕',
  good: '✓',
  caution: '△',
  stop: '■',
  accent: '◆',
  quiet: '',
}

interface StateSignProps {
  readonly tone: Tone
  readonly children: string
  /** another sign than the tone's own */
  readonly sign?: string | undefined
}

/** A state in words with its sign and colour. */
export function StateSign({ tone, children, sign = signs[tone] }: StateSignProps) {
  return (
    <span className={styles.state} data-tone={tone}>
      {sign !== '' && <span aria-hidden="true">{sign}</span>} {children}
    </span>
  )
}
