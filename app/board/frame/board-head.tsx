'use client'

import { lazy, Suspense, useMemo, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { DraftIcon, MenuIcon, PeopleIcon, RewindIcon } from '@/app/components/icons.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { ThemeSwitch } from '@/app/theme/theme-switch.tsx'
import { rolesThatWithdraw, rolesWithRewind } from '@/lib/board/roles.ts'
import { useBoard, useBoardStatus, useMay, useMessages, useSingle } from '../board-context.tsx'
import {
  CaseDetails,
  CaseMenu,
  DraftsPanel,
  ExchangeDialog,
  PeoplePanel,
  ShortcutHelp,
  WithdrawDialog,
} from '../later-parts.ts'
import { usePutOnScreen } from '../put-on-screen.ts'
import { type Shortcut, useShortcuts } from '../shortcuts.tsx'
import styles from './board-head.module.css'
import { OnScreen } from './on-screen.tsx'
import type { PaneName } from './pane-names.ts'
import { StoredSign } from './stored-sign.tsx'

const DelayDialog = lazy(() => import('../delay/delay-dialog.tsx'))

/** What gets the focus back when somebody has looked back. */
export const rewindButtonId = 'rewind'

export type Panel = 'people' | 'drafts' | 'menu' | 'keys' | 'details' | 'delay' | 'withdraw' | 'exchange'

interface BoardHeadProps {
  readonly onShowPane: (name: PaneName) => void
  readonly onRewind: () => void
}

/** Whose case it is, how far it is, whether what is written is stored, and who is here. */
export function BoardHead({ onShowPane, onRewind }: BoardHeadProps) {
  const { board, words } = useMessages()
  const { caseId, programme, label, me } = useBoard()
  const { roster, drafts } = useBoardStatus()
  const header = useSingle('header')
  const may = useMay()
  const [open, setOpen] = useState<Panel>()
  const close = () => setOpen(undefined)
  const mayRewind = rolesWithRewind.includes(me.role)
  const mayWithdraw = rolesThatWithdraw.includes(me.role)
  useHeadKeys(setOpen, mayRewind ? onRewind : undefined, mayWithdraw)
  return (
    <header className={styles.head}>
      <div className={styles.name}>
        <a className={styles.programme} href={`/programme/${programme.id}`}>
          <span aria-hidden="true">←</span> {programme.label}
        </a>
        <h1 className={styles.title}>{header?.pseudonym ?? label}</h1>
      </div>
      <div className={styles.facts}>
        {header !== undefined && <EarSign ear={header.ear} />}
        {header !== undefined && (
          <StateSign tone={header.phase === 'in-theatre' ? 'accent' : 'quiet'}>{words.phase[header.phase]}</StateSign>
        )}
        {header === undefined && may.mayCreate('header') && (
          <Button tone="accent" onClick={() => setOpen('details')}>
            {board.describeCase}
          </Button>
        )}
        <StoredSign />
        {may.mayCreate('mainScreen') && <a href={deskOf(caseId)}>{board.desk}</a>}
        <OnScreen onShowPane={onShowPane} />
      </div>
      <div className={styles.tools}>
        {drafts.length > 0 && (
          <IconButton label={board.openDrafts(drafts.length)} onClick={() => setOpen('drafts')}>
            <DraftIcon />
            <span aria-hidden="true">{drafts.length}</span>
          </IconButton>
        )}
        {mayRewind && (
          <IconButton id={rewindButtonId} label={board.rewind} onClick={onRewind}>
            <RewindIcon />
          </IconButton>
        )}
        <IconButton label={board.openPeople(roster.people.length, roster.observers)} onClick={() => setOpen('people')}>
          <PeopleIcon />
          <span aria-hidden="true">{roster.people.length + roster.observers}</span>
        </IconButton>
        <ThemeSwitch />
        <IconButton label={board.openMenu} onClick={() => setOpen('menu')}>
          <MenuIcon />
        </IconButton>
      </div>
      <PeoplePanel open={open === 'people'} onClose={close} />
      <DraftsPanel open={open === 'drafts'} onClose={close} />
      <CaseMenu open={open === 'menu'} onClose={close} onOpen={setOpen} />
      <ShortcutHelp open={open === 'keys'} onClose={close} />
      {open === 'delay' && (
        <Suspense>
          <DelayDialog open onClose={close} />
        </Suspense>
      )}
      <CaseDetails open={open === 'details'} onClose={close} />
      <ExchangeDialog open={open === 'exchange'} onClose={close} />
      {mayWithdraw && <WithdrawDialog open={open === 'withdraw'} onClose={close} />}
    </header>
  )
}

const deskOf = (caseId: string): string => `/case/${caseId}/desk`

function useHeadKeys(setOpen: (panel: Panel) => void, rewind: (() => void) | undefined, mayWithdraw: boolean): void {
  const { board } = useMessages()
  const { caseId } = useBoard()
  const put = usePutOnScreen()
  const shortcuts = useMemo<Shortcut[]>(
    () => [
      { key: '?', does: board.showKeys, act: () => setOpen('keys') },
      { key: 'u', does: board.showDrafts, act: () => setOpen('drafts') },
      { key: 'w', does: board.showPeople, act: () => setOpen('people') },
      ...(put === undefined
        ? []
        : [
            { key: 'm', does: board.showSyncMark, act: () => put({ kind: 'sync-mark' }) },
            { key: 'k', does: board.openDesk, act: () => location.assign(deskOf(caseId)) },
          ]),
      ...(mayWithdraw ? [{ key: 'W', does: board.withdraw, act: () => setOpen('withdraw') }] : []),
      ...(rewind === undefined ? [] : [{ key: 't', does: board.rewind, act: rewind }]),
    ],
    [board, caseId, setOpen, put, rewind, mayWithdraw],
  )
  useShortcuts(board.headKeys, shortcuts)
}
