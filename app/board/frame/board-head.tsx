'use client'

import Link from 'next/link'
import { useMemo, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { DraftIcon, MenuIcon, PeopleIcon } from '@/app/components/icons.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { ThemeSwitch } from '@/app/theme/theme-switch.tsx'
import { useBoard, useBoardStatus, useMay, useMessages, useSingle } from '../board-context.tsx'
import { type Shortcut, useShortcuts } from '../shortcuts.tsx'
import styles from './board-head.module.css'
import { CaseDetails } from './case-details.tsx'
import { CaseMenu } from './case-menu.tsx'
import { DraftsPanel } from './drafts-panel.tsx'
import { OnScreen } from './on-screen.tsx'
import type { PaneName } from './pane-names.ts'
import { PeoplePanel } from './people-panel.tsx'
import { ShortcutHelp } from './shortcut-help.tsx'
import { StoredSign } from './stored-sign.tsx'

export type Panel = 'people' | 'drafts' | 'menu' | 'keys' | 'details'

/** Whose case it is, how far it is, whether what is written is stored, and who is here. */
export function BoardHead({ onShowPane }: { onShowPane: (name: PaneName) => void }) {
  const { board, words } = useMessages()
  const { programme, label } = useBoard()
  const { roster, drafts } = useBoardStatus()
  const header = useSingle('header')
  const may = useMay()
  const [open, setOpen] = useState<Panel>()
  const close = () => setOpen(undefined)
  usePanelKeys(setOpen)
  return (
    <header className={styles.head}>
      <div className={styles.name}>
        <Link className={styles.programme} prefetch={false} href={`/programme/${programme.id}`}>
          <span aria-hidden="true">←</span> {programme.label}
        </Link>
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
        <OnScreen onShowPane={onShowPane} />
      </div>
      <div className={styles.tools}>
        {drafts.length > 0 && (
          <IconButton label={board.openDrafts(drafts.length)} onClick={() => setOpen('drafts')}>
            <DraftIcon />
            <span aria-hidden="true">{drafts.length}</span>
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
      <CaseDetails open={open === 'details'} onClose={close} />
    </header>
  )
}

function usePanelKeys(setOpen: (panel: Panel) => void): void {
  const { board } = useMessages()
  const shortcuts = useMemo<Shortcut[]>(
    () => [
      { key: '?', does: board.showKeys, act: () => setOpen('keys') },
      { key: 'd', does: board.showDrafts, act: () => setOpen('drafts') },
      { key: 'w', does: board.showPeople, act: () => setOpen('people') },
    ],
    [board, setOpen],
  )
  useShortcuts(board.headKeys, shortcuts)
}
