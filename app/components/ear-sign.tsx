import { useMessages } from '@/app/messages/use-messages.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import styles from './ear-sign.module.css'

/** The air-conduction signs of the audiogram (ISO 8253-1, ASHA): a circle for the right ear, a cross for the left. */
export const earSigns: Readonly<Record<Ear, string>> = { right: '○', left: '✕' }

/** An ear in words, with its sign and its colour. */
export function EarSign({ ear }: { ear: Ear }) {
  const { words } = useMessages()
  return (
    <span className={styles.ear} data-ear={ear}>
      <span aria-hidden="true">{earSigns[ear]}</span> {words.ear[ear]}
    </span>
  )
}
