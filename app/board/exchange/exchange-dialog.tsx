'use client'

import { Dialog } from '@/app/components/dialog.tsx'
import styles from '@/app/exchange/exchange.module.css'
import { useMessages } from '@/app/messages/for-exchange.ts'
import { useBoard } from '../board-context.tsx'
import { FhirImport } from './fhir-import.tsx'

interface ExchangeDialogProps {
  readonly open: boolean
  readonly onClose: () => void
}

const outs = ['archive', 'fhir', 'statistics'] as const

/** The case as files for elsewhere, and tests from elsewhere. */
export function ExchangeDialog({ open, onClose }: ExchangeDialogProps) {
  const { exchange } = useMessages()
  return (
    <Dialog open={open} wide onClose={onClose} title={exchange.title}>
      <Content onDone={onClose} />
    </Dialog>
  )
}

function Content({ onDone }: { readonly onDone: () => void }) {
  const { exchange } = useMessages()
  const { caseId } = useBoard()
  return (
    <div className={styles.parts}>
      <ul className={styles.parts} aria-label={exchange.out}>
        {outs.map((what) => (
          <li key={what}>
            <a href={`/api/cases/${encodeURIComponent(caseId)}/export/${what}`} download>
              {exchange.outs[what]}
            </a>
            <p className={styles.hint}>{exchange.outHints[what]}</p>
          </li>
        ))}
      </ul>
      <p className={styles.hint}>{exchange.outCaution}</p>
      <h3 className={styles.heading}>{exchange.in}</h3>
      <FhirImport onDone={onDone} />
    </div>
  )
}
