'use client'

import { type KeyboardEvent, type ReactNode, useState } from 'react'
import { OrderButtons } from '@/app/components/act-bar.tsx'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-meeting.ts'
import type { CaseSummary } from '@/lib/interchange/api.ts'
import styles from './lead-acts.module.css'
import { SlotForm } from './slot-form.tsx'
import type { Leading } from './use-leading.ts'

interface LeadActsProps {
  readonly summary: CaseSummary
  readonly leading: Leading
  readonly isOn: boolean
  readonly isNext: boolean
  /** what else may be done with it here */
  readonly children?: ReactNode
}

/** What the moderator may do with one case of the day. */
export function LeadActs({ summary, leading, isOn, isNext, children }: LeadActsProps) {
  const { meeting } = useMessages()
  const { id, label } = summary
  const [isOpen, setOpen] = useState(false)
  const onKeyDown = (event: KeyboardEvent) => {
    const by = { ArrowUp: -1, ArrowDown: 1 }[event.key]
    if (!event.altKey || by === undefined) return
    event.preventDefault()
    leading.shift(id, by === 1 ? 1 : -1)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside
    <div className={styles.acts} onKeyDown={onKeyDown}>
      {!isOn && (
        <Button
          tone={isNext ? 'accent' : 'plain'}
          aria-label={meeting.bringOnCase(label)}
          onClick={() => leading.bringOn({ kind: 'case', id })}
        >
          {meeting.bringOn}
        </Button>
      )}
      <Button tone="quiet" aria-label={meeting.setTimeOf(label)} onClick={() => setOpen(true)}>
        {meeting.setTime}
      </Button>
      <OrderButtons up={meeting.up(label)} down={meeting.down(label)} onShift={(by) => leading.shift(id, by)} />
      {children}
      <SlotForm open={isOpen} onClose={() => setOpen(false)} summary={summary} leading={leading} />
    </div>
  )
}
