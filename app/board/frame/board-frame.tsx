'use client'

import { Activity, lazy, Suspense, useCallback, useMemo, useState } from 'react'
import { useMessages, useSingle } from '../board-context.tsx'
import { OwnQuestionNotices } from '../floor/own-question-notices.tsx'
import { type Shortcut, useShortcuts } from '../shortcuts.tsx'
import styles from './board-frame.module.css'
import { BoardHead } from './board-head.tsx'
import { LoadAhead } from './load-ahead.tsx'
import { Notices } from './notices.tsx'
import { isShown, type PaneName, paneId, paneNames, sharedPanes, shownInTurn } from './pane-names.ts'
import { PaneSwitch } from './pane-switch.tsx'
import { useColumns } from './use-columns.ts'
import { usePaneCalls } from './use-pane-calls.ts'

const panes: Record<PaneName, ReturnType<typeof lazy>> = {
  hearing: lazy(() => import('../hearing/hearing-pane.tsx')),
  plan: lazy(() => import('../plan/plan-pane.tsx')),
  steps: lazy(() => import('../steps/steps-pane.tsx')),
  decisions: lazy(() => import('../decisions/decisions-pane.tsx')),
  floor: lazy(() => import('../floor/floor-pane.tsx')),
}

/** The board of one case: its head, its panes in as many columns as fit, and the switch between those that share one. */
export function BoardFrame() {
  const { board, shell } = useMessages()
  const header = useSingle('header')
  const columns = useColumns()
  const [chosen, setChosen] = useState<PaneName>('hearing')
  const show = useCallback((name: PaneName) => {
    setChosen(name)
    requestAnimationFrame(() => document.getElementById(paneId(name))?.focus())
  }, [])
  usePaneKeys(show)
  usePaneCalls(chosen, columns, setChosen)
  const opened = useOpened(paneNames.filter((name) => isShown(name, chosen, columns)))
  const switchable = sharedPanes(columns)
  return (
    <div className={styles.board} data-columns={columns}>
      <title>{`${header?.pseudonym ?? board.pageTitle} - ${shell.productName}`}</title>
      <nav className={styles.skips} aria-label={board.skipLinks}>
        {paneNames.map((name) => (
          <a
            key={name}
            href={`#${paneId(name)}`}
            onClick={(event) => {
              event.preventDefault()
              show(name)
            }}
          >
            {shell.skipTo(board.pane[name])}
          </a>
        ))}
      </nav>
      <BoardHead onShowPane={show} />
      <Notices />
      <OwnQuestionNotices />
      <LoadAhead />
      <main className={styles.panes}>
        {paneNames.map((name) => {
          const Content = panes[name]
          const place = switchable.includes(name) ? 'shared' : name
          return (
            <Activity key={name} mode={isShown(name, chosen, columns) ? 'visible' : 'hidden'}>
              <div id={paneId(name)} className={styles.pane} data-place={place} tabIndex={-1}>
                {opened.has(name) && (
                  <Suspense fallback={<p className={styles.loading}>{shell.loading}</p>}>
                    <Content />
                  </Suspense>
                )}
              </div>
            </Activity>
          )
        })}
        <PaneSwitch names={switchable} shown={shownInTurn(chosen, columns)} onShow={show} />
      </main>
    </div>
  )
}

/** Panes that have been in view: only they are loaded, and from then on they keep what was typed in them. */
function useOpened(shown: readonly PaneName[]): ReadonlySet<PaneName> {
  const [opened, setOpened] = useState<ReadonlySet<PaneName>>(new Set(shown))
  if (!shown.every((name) => opened.has(name))) setOpened(new Set([...opened, ...shown]))
  return opened
}

function usePaneKeys(show: (name: PaneName) => void): void {
  const { board } = useMessages()
  const shortcuts = useMemo<Shortcut[]>(
    () =>
      paneNames.map((name, index) => ({
        key: String(index + 1),
        does: board.goToPane(board.pane[name]),
        act: () => show(name),
      })),
    [board, show],
  )
  useShortcuts(board.boardKeys, shortcuts)
}
