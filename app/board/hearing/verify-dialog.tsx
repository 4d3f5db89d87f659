'use client'

import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './dialogs.module.css'

interface VerifyDialogProps {
  readonly sentence: string
  readonly empty: boolean
  readonly onClose: () => void
  readonly onVerify: () => void
}

/** Verifying closes the numbers for good, so it is asked for twice. */
export function VerifyDialog({ sentence, empty, onClose, onVerify }: VerifyDialogProps) {
  const { hearing, shell } = useMessages()
  return (
    <Dialog open onClose={onClose} title={hearing.test.verifyTitle}>
      <p className={styles.subject}>{sentence}</p>
      <p>{empty ? hearing.test.verifyEmpty : hearing.test.verifyText}</p>
      <div className={styles.buttons}>
        {!empty && (
          <Button tone="accent" onClick={onVerify}>
            {hearing.test.verify}
          </Button>
        )}
        <Button onClick={onClose}>{shell.cancel}</Button>
      </div>
    </Dialog>
  )
}
