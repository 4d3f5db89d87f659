import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { EvidenceSource, EvidenceStatus } from '@/lib/devices/evidence-source.ts'
import styles from './why.module.css'

const statusTone: Record<EvidenceStatus, Tone> = {
  confirmed: 'good',
  'approximate, from memory': 'caution',
  assumption: 'caution',
  'from labelling': 'good',
}

export function Sources({ sources }: { sources: readonly EvidenceSource[] }) {
  const { forecast } = useMessages()
  const { why } = forecast
  return (
    <ul className={styles.sources}>
      {sources.map(({ id, citation, status, readAt, reservation }) => (
        <li key={id} className={styles.source}>
          <StateSign tone={statusTone[status]}>{why.status[status]}</StateSign> <span lang="en">{citation}</span>
          {readAt !== undefined && <span className={styles.readAt}>{why.readAt(readAt)}</span>}
          {reservation !== undefined && (
            <span className={styles.reservation}>
              <span aria-hidden="true">△ </span>
              <span lang="en">{reservation}</span>
            </span>
          )}
        </li>
      ))}
    </ul>
  )
}
