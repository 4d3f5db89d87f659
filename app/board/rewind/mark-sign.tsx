import type { SessionMark } from '@/lib/board/session-marks.ts'
import styles from './mark-sign.module.css'

export type MarkKind = SessionMark['kind']
export const markKinds = [
  'steps',
  'questions',
  'notes',
  'contingencies',
  'pictures',
] as const satisfies readonly MarkKind[]

/** Kinds differ by their shape; beside it each has a row of its own. */
const shapes: Readonly<Record<MarkKind, string>> = {
  steps: 'M2 2h8v8H2z',
  questions: 'M6 1a5 5 0 1 1 0 10A5 5 0 1 1 6 1z',
  notes: 'M6 0.5l5.5 5.5L6 11.5 0.5 6z',
  contingencies: 'M6 1l5.5 10h-11z',
  pictures: 'M0.5 3h11v7h-11zM4 3l1-1.5h2L8 3z',
}

export function MarkSign({ kind }: { readonly kind: MarkKind }) {
  return (
    <svg className={styles.sign} viewBox="0 0 12 12" aria-hidden="true" focusable="false">
      <path d={shapes[kind]} />
    </svg>
  )
}
