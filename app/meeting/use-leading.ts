'use client'

import { useCallback, useEffect, useRef, useState } from 'react'
import { sentenceOfFault, tellApi } from '@/app/api-client.ts'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-meeting.ts'
import { mayInProgramme } from '@/lib/board/programme-rights.ts'
import type { BringOn, CaseOrder, CaseSlot, ProgrammeDetail } from '@/lib/interchange/api.ts'

/** What the moderator does with the day. The page hears of the change as everybody does. */
export interface Leading {
  bringOn(wanted: BringOn): void
  shift(caseId: string, by: -1 | 1): void
  /** @throws ApiFault */
  saveSlot(caseId: string, slot: CaseSlot): Promise<void>
  /** why the last act was not done; undefined when it was */
  readonly fault: string | undefined
}

/** @returns undefined for somebody who only follows */
export function useLeading(detail: ProgrammeDetail | undefined): Leading | undefined {
  const { meeting } = useMessages()
  const say = useSay()
  const [fault, setFault] = useState<string>()
  const keepFocus = useFocusKept(detail)
  const path = `/api/programmes/${encodeURIComponent(detail?.programme.id ?? '')}` as const
  const act = useCallback(
    (where: 'now' | 'order', body: BringOn | CaseOrder, done?: () => void) => {
      setFault(undefined)
      tellApi(`${path}/${where}`, { method: 'POST', body }).then(done, (error: unknown) =>
        setFault(sentenceOfFault(error)),
      )
    },
    [path],
  )
  if (detail === undefined || !mayInProgramme('lead', detail.role)) return undefined
  return {
    bringOn: (wanted) => {
      keepFocus()
      act('now', wanted)
    },
    shift: (caseId, by) => {
      const cases = detail.cases.map(({ id }) => id)
      const from = cases.indexOf(caseId)
      const to = from + by
      if (to < 0 || to >= cases.length) return
      keepFocus()
      cases.splice(to, 0, ...cases.splice(from, 1))
      const label = detail.cases[from]?.label ?? ''
      act('order', { cases }, () => say(meeting.moved(label, to + 1, cases.length)))
    },
    saveSlot: (caseId, body) => tellApi(`${path}/cases/${encodeURIComponent(caseId)}/slot`, { method: 'POST', body }),
    fault,
  }
}

/** A row that is moved in the page, or a button that goes, loses the focus; whoever works by keyboard must not lose the place. */
function useFocusKept(detail: ProgrammeDetail | undefined): () => void {
  const kept = useRef<{ readonly element: Element; readonly row: Element | null }>(undefined)
  // biome-ignore lint/correctness/useExhaustiveDependencies: each new state may have moved what had the focus
  useEffect(() => {
    if (kept.current === undefined || document.activeElement !== document.body) return
    const { element, row } = kept.current
    const there = element.isConnected ? element : (row?.querySelector('button') ?? row)
    if (there instanceof HTMLElement) there.focus()
  }, [detail])
  return useCallback(() => {
    const element = document.activeElement
    kept.current = element === null ? undefined : { element, row: element.closest('li, section') }
  }, [])
}
