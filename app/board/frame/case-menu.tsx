'use client'

import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { LanguageSwitch } from '@/app/language/language-switch.tsx'
import { rolesThatExchange, rolesThatWithdraw } from '@/lib/board/roles.ts'
import { useBoard, useMay, useMessages } from '../board-context.tsx'
import styles from './case-menu.module.css'

interface CaseMenuProps {
  readonly open: boolean
  readonly onClose: () => void
  readonly onOpen: (panel: 'details' | 'delay' | 'keys' | 'drafts' | 'withdraw' | 'exchange') => void
}

/** The other pages of a case, and what is needed less often. */
export function CaseMenu({ open, onClose, onOpen }: CaseMenuProps) {
  const { board, shell } = useMessages()
  const { caseId, me } = useBoard()
  const may = useMay()
  return (
    <Dialog open={open} onClose={onClose} title={board.menu}>
      <ul className={styles.pages}>
        {(['follow-up', 'screen', 'theatre', 'handout', 'code'] as const).map((page) => (
          <li key={page}>
            <a href={`/case/${caseId}/${page}`} target="_blank" rel="noreferrer">
              {board.page[page]}
            </a>
            <p className={styles.hint}>{board.pageHint[page]}</p>
          </li>
        ))}
      </ul>
      <div className={styles.acts}>
        {may.mayCreate('header') && <Button onClick={() => onOpen('details')}>{board.caseDetails}</Button>}
        {may.mayCreate('videoDelays') && <Button onClick={() => onOpen('delay')}>{board.videoDelay}</Button>}
        {rolesThatWithdraw.includes(me.role) && <Button onClick={() => onOpen('withdraw')}>{board.withdraw}</Button>}
        {rolesThatExchange.includes(me.role) && <Button onClick={() => onOpen('exchange')}>{board.exchange}</Button>}
        <Button onClick={() => onOpen('drafts')}>{board.drafts}</Button>
        <Button onClick={() => onOpen('keys')}>{board.showKeys}</Button>
        <LanguageSwitch />
        <a className={styles.leave} href="/leave">
          {shell.leave}
        </a>
      </div>
      <p className={styles.caution}>{board.caution}</p>
    </Dialog>
  )
}
