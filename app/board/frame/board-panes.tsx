'use client'

import { Activity, lazy, type ReactNode, Suspense, useCallback, useEffect, useMemo, useRef, useState } from 'react'
import { useMessages } from '../board-context.tsx'
import { type Shortcut, useShortcuts } from '../shortcuts.tsx'
import styles from './board-panes.module.css'
import {
  isShown,
  type PaneName,
  paneId,
  paneNames,
  sharedPanes,
  shownInTurn,
  standsAlone,
  type When,
} from './pane-names.ts'
import { PaneSwitch } from './pane-switch.tsx'
import { useColumns } from './use-columns.ts'
import { usePaneCalls } from './use-pane-calls.ts'

const loadHearing = () => import('../hearing/hearing-pane.tsx')
// The pane that every board opens with comes while the case is asked for.
loadHearing().catch(() => undefined)

const panes: Record<PaneName, ReturnType<typeof lazy>> = {
  hearing: lazy(loadHearing),
  plan: lazy(() => import('../plan/plan-pane.tsx')),
  steps: lazy(() => import('../steps/steps-pane.tsx')),
  decisions: lazy(() => import('../decisions/decisions-pane.tsx')),
  floor: lazy(() => import('../floor/floor-pane.tsx')),
}

interface BoardPanesProps {
  readonly when: When
  /** whether panes that are not in the first view may load */
  readonly isCalm: boolean
  /** once those that are in view at first have been drawn */
  readonly onStand?: () => void
  /** what stands above the panes; it may bring one forward */
  readonly above: (show: (name: PaneName) => void) => ReactNode
  readonly below?: ReactNode
}

/** The panes of a case in as many columns as fit, the switch between those that share one, and what frames them. */
export function BoardPanes({ when, isCalm, onStand, above, below }: BoardPanesProps) {
  const { board, shell } = useMessages()
  const columns = useColumns()
  const [chosen, setChosen] = useState<PaneName>('hearing')
  const show = useCallback(
    (name: PaneName) => {
      setChosen(name)
      requestAnimationFrame(() => document.getElementById(paneId(name, when))?.focus())
    },
    [when],
  )
  usePaneKeys(show)
  usePaneCalls(chosen, columns, setChosen)
  const shown = paneNames.filter((name) => isShown(name, chosen, columns))
  const atFirst = shown.filter((name) => name === chosen || standsAlone(name, columns))
  const opened = useOpened(isCalm ? shown : atFirst)
  const drawn = useDrawn(atFirst, onStand)
  const switchable = sharedPanes(columns)
  return (
    <div className={styles.board} data-columns={columns} data-when={when}>
      <nav className={styles.skips} aria-label={board.skipLinks}>
        {paneNames.map((name) => (
          <a
            key={name}
            href={`#${paneId(name, when)}`}
            onClick={(event) => {
              event.preventDefault()
              show(name)
            }}
          >
            {shell.skipTo(board.pane[name])}
          </a>
        ))}
      </nav>
      {above(show)}
      <main className={styles.panes}>
        {paneNames.map((name) => {
          const Content = panes[name]
          const place = switchable.includes(name) ? 'shared' : name
          return (
            <Activity key={name} mode={isShown(name, chosen, columns) ? 'visible' : 'hidden'}>
              <div id={paneId(name, when)} className={styles.pane} data-place={place} tabIndex={-1}>
                {opened.has(name) ? (
                  <Suspense fallback={<p className={styles.loading}>{shell.loading}</p>}>
                    <Content />
                    <Drawn name={name} onDrawn={drawn} />
                  </Suspense>
                ) : (
                  <p className={styles.loading}>{shell.loading}</p>
                )}
              </div>
            </Activity>
          )
        })}
        <PaneSwitch when={when} names={switchable} shown={shownInTurn(chosen, columns)} onShow={show} />
      </main>
      {below}
    </div>
  )
}

/** Stands beside what is loaded, so it is mounted together with it. */
function Drawn({ name, onDrawn }: { readonly name: PaneName; readonly onDrawn: (name: PaneName) => void }) {
  useEffect(() => onDrawn(name), [name, onDrawn])
  return null
}

/** @returns what each pane calls once it has been drawn; `onStand` is called when all of `awaited` have been */
function useDrawn(awaited: readonly PaneName[], onStand: (() => void) | undefined): (name: PaneName) => void {
  const drawn = useRef(new Set<PaneName>())
  const latest = useRef({ awaited, onStand })
  useEffect(() => {
    latest.current = { awaited, onStand }
  })
  return useCallback((name: PaneName) => {
    drawn.current.add(name)
    if (latest.current.awaited.every((each) => drawn.current.has(each))) latest.current.onStand?.()
  }, [])
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
