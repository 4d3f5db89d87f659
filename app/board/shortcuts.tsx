'use client'

import { createContext, type ReactNode, useCallback, useContext, useEffect, useMemo, useRef, useState } from 'react'

/** One key (`event.key`, e.g. `s`, `?`, `ArrowUp`), what it does in words, and the act. */
export interface Shortcut {
  readonly key: string
  readonly does: string
  /** whether the shortcut applies now; always when left out */
  readonly when?: () => boolean
  act(event: KeyboardEvent): void
}

interface Registry {
  /** the shortcuts of all mounted panes, for the help */
  readonly groups: ReadonlyMap<string, readonly Shortcut[]>
  register(group: string, shortcuts: readonly Shortcut[]): () => void
}

const ShortcutsContext = createContext<Registry | undefined>(undefined)

/** Keys go to the page only while nobody is typing, and never with Ctrl, Alt or Meta, which belong to the browser. */
export function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable || target.matches('input:not([type=checkbox], [type=radio]), textarea, select'))
  )
}

export function ShortcutsProvider({ children }: { children: ReactNode }) {
  const [groups, setGroups] = useState<ReadonlyMap<string, readonly Shortcut[]>>(new Map())
  const latest = useRef(groups)
  latest.current = groups
  const register = useCallback<Registry['register']>((group, shortcuts) => {
    setGroups((before) => new Map(before).set(group, shortcuts))
    return () =>
      setGroups((before) => {
        const after = new Map(before)
        if (after.get(group) === shortcuts) after.delete(group)
        return after
      })
  }, [])
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || isTyping(event.target)) return
      if (document.querySelector('dialog[open]') !== null) return
      const shortcut = [...latest.current.values()]
        .flat()
        .find(({ key, when }) => key === event.key && when?.() !== false)
      if (shortcut === undefined) return
      event.preventDefault()
      shortcut.act(event)
    }
    addEventListener('keydown', onKey)
    return () => removeEventListener('keydown', onKey)
  }, [])
  const registry = useMemo(() => ({ groups, register }), [groups, register])
  return <ShortcutsContext value={registry}>{children}</ShortcutsContext>
}

/** @throws TypeError outside a ShortcutsProvider */
export function useShortcutRegistry(): Registry {
  const registry = useContext(ShortcutsContext)
  if (registry === undefined) throw new TypeError('shortcuts need a ShortcutsProvider above')
  return registry
}

/** Registers a pane's shortcuts under its title while it is mounted; `shortcuts` keeps its identity (useMemo). */
export function useShortcuts(group: string, shortcuts: readonly Shortcut[]): void {
  const { register } = useShortcutRegistry()
  useEffect(() => {
    if (shortcuts.length > 0) return register(group, shortcuts)
  }, [register, group, shortcuts])
}
