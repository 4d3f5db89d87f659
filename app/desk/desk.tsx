'use client'

import { useMemo, useState } from 'react'
import { useBoard, useBoardStatus, useMay, useSingle } from '@/app/board/board-context.tsx'
import { Notices } from '@/app/board/frame/notices.tsx'
import { StoredSign } from '@/app/board/frame/stored-sign.tsx'
import { DraftsPanel, PeoplePanel, ShortcutHelp, WithdrawDialog } from '@/app/board/later-parts.ts'
import { PictureDeskProvider } from '@/app/board/pictures/picture-desk.tsx'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { EarSign } from '@/app/components/ear-sign.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { DraftIcon, KeyboardIcon, PeopleIcon } from '@/app/components/icons.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import { ThemeSwitch } from '@/app/theme/theme-switch.tsx'
import { DeedsProvider, useDeeds } from './deeds.tsx'
import styles from './desk.module.css'
import { useDeskActs } from './desk-acts.ts'
import { FloorZone } from './floor-zone.tsx'
import { RecordZone } from './record-zone.tsx'
import { ScreenZone } from './screen-zone.tsx'
import { UndoBar } from './undo-bar.tsx'

/** The moderator's desk of a case: what is shown and comes next, the floor, and the running record, on one screen. */
export function Desk() {
  const { desk, shell, words } = useMessages()
  const { caseId, label } = useBoard()
  const header = useSingle('header')
  const may = useMay()
  const name = header?.pseudonym ?? label
  const title = <title>{`${words.labelled(desk.pageTitle, name)} - ${shell.productName}`}</title>
  if (!may.mayCreate('mainScreen'))
    return (
      <main className={styles.closed}>
        {title}
        <h1 className={styles.title}>{desk.notForYou}</h1>
        <p>{desk.notForYouHint}</p>
        <a href={`/case/${caseId}`}>{desk.toBoard}</a>
      </main>
    )
  return (
    <KeptTextScope value={caseId}>
      <DeedsProvider>
        {title}
        <PictureDeskProvider>
          <Zones name={name} />
        </PictureDeskProvider>
      </DeedsProvider>
    </KeptTextScope>
  )
}

function Zones({ name }: { readonly name: string }) {
  const acts = useDeskActs()
  return (
    <div className={styles.desk}>
      <DeskHead name={name} />
      <Notices />
      <main className={styles.zones}>
        <div className={styles.zone}>
          <ScreenZone acts={acts} />
        </div>
        <div className={styles.zone} data-main="true">
          <FloorZone acts={acts} />
        </div>
        <div className={styles.zone}>
          <RecordZone acts={acts} />
        </div>
      </main>
      <UndoBar />
    </div>
  )
}

type Panel = 'keys' | 'people' | 'drafts' | 'withdraw'

function DeskHead({ name }: { readonly name: string }) {
  const { desk, board, words } = useMessages()
  const { caseId } = useBoard()
  const { roster, drafts } = useBoardStatus()
  const header = useSingle('header')
  const [open, setOpen] = useState<Panel>()
  const close = () => setOpen(undefined)
  usePageKeys(setOpen)
  return (
    <header className={styles.head}>
      <h1 className={styles.title}>
        {name} <span className={styles.what}>{desk.title}</span>
      </h1>
      <div className={styles.facts}>
        {header !== undefined && <EarSign ear={header.ear} />}
        {header !== undefined && (
          <StateSign tone={header.phase === 'in-theatre' ? 'accent' : 'quiet'}>{words.phase[header.phase]}</StateSign>
        )}
        <StoredSign />
      </div>
      <div className={styles.tools}>
        <a className={styles.link} href={`/case/${caseId}`}>
          {desk.toBoard}
        </a>
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
        <IconButton label={board.showKeys} onClick={() => setOpen('keys')}>
          <KeyboardIcon />
        </IconButton>
      </div>
      <PeoplePanel open={open === 'people'} onClose={close} />
      <DraftsPanel open={open === 'drafts'} onClose={close} />
      <ShortcutHelp open={open === 'keys'} onClose={close} />
      <WithdrawDialog open={open === 'withdraw'} onClose={close} />
    </header>
  )
}

function usePageKeys(setOpen: (panel: Panel) => void): void {
  const { desk, board } = useMessages()
  const { caseId } = useBoard()
  const { takeBackLast } = useDeeds()
  const shortcuts = useMemo<Shortcut[]>(
    () => [
      { key: 'z', does: desk.keys.take, act: takeBackLast },
      { key: 'W', does: desk.keys.withdraw, act: () => setOpen('withdraw') },
      { key: 'w', does: board.showPeople, act: () => setOpen('people') },
      { key: 'g', does: desk.keys.board, act: () => location.assign(`/case/${caseId}`) },
      { key: 'Esc', does: desk.keys.leave, when: () => false, act: () => undefined },
      { key: '?', does: desk.keys.help, act: () => setOpen('keys') },
    ],
    [desk, board, caseId, takeBackLast, setOpen],
  )
  useShortcuts(desk.keys.record, shortcuts)
}
