import { useMessages } from '@/app/messages/use-messages.ts'
import type { Provenance } from '@/lib/audiometry/provenance.ts'
import styles from './source-line.module.css'

/** Where a rule or table comes from. What nobody has confirmed carries a sign of its own. */
export function SourceLine({ of }: { of: Provenance }) {
  const { measures, words } = useMessages()
  return (
    <span className={styles.source} data-status={of.status}>
      {words.labelled(measures.howWords.source, '')}
      <span lang="en">{of.source}</span>. <b className={styles.status}>{measures.statusWords[of.status]}</b>
      {of.reservation !== undefined && (
        <>
          ; <span lang="en">{of.reservation}</span>
        </>
      )}
      .
    </span>
  )
}
