'use client'

import Link from 'next/link'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { useBoard, useMay, useMessages } from '../board-context.tsx'
import styles from './case-menu.module.css'

interface CaseMenuProps {
  readonly open: boolean
  readonly onClose: () => void
  readonly onOpen: (panel: 'details' | 'keys' | 'drafts') => void
}

/** The other pages of a case, and what is needed less often. */
export function CaseMenu({ open, onClose, onOpen }: CaseMenuProps) {
  const { board } = useMessages()
  const { caseId } = useBoard()
  const may = useMay()
  return (
    <Dialog open={open} onClose={onClose} title={board.menu}>
      <ul className={styles.pages}>
        {(['screen', 'theatre', 'handout', 'code'] as const).map((page) => (
          <li key={page}>
            <Link href={`/case/${caseId}/${page}`} target="_blank" prefetch={false}>
              {board.page[page]}
            </Link>
            <p className={styles.hint}>{board.pageHint[page]}</p>
          </li>
        ))}
      </ul>
      <div className={styles.acts}>
        {may.mayCreate('header') && <Button onClick={() => onOpen('details')}>{board.caseDetails}</Button>}
        <Button onClick={() => onOpen('drafts')}>{board.drafts}</Button>
        <Button onClick={() => onOpen('keys')}>{board.showKeys}</Button>
      </div>
      <p className={styles.caution}>{board.caution}</p>
    </Dialog>
  )
}
