'use client'

import { highlight } from '@/app/board/chart-pick.ts'
import { jumpTo } from '@/app/board/jump.ts'
import { NoteIcon, PlaceIcon, StepIcon } from '@/app/components/icons.tsx'
import type { floor as floorMessages } from '@/app/messages/en/floor.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { Anchor } from '@/lib/board/records/question.ts'
import styles from './anchor-chip.module.css'
import type { NamedRecord } from './floor-desk.ts'

interface AnchorChipProps {
  readonly anchor: Anchor
  readonly notes: readonly NamedRecord[]
  readonly steps: readonly NamedRecord[]
  readonly tabIndex?: 0 | -1
}

const icons = { chart: PlaceIcon, note: NoteIcon, step: StepIcon } as const

/** What a question is about; shows the place on the audiogram, or goes to the note or step. */
export function AnchorChip({ anchor, notes, steps, tabIndex = 0 }: AnchorChipProps) {
  const { floor } = useMessages()
  const AnchorIcon = icons[anchor.kind]
  const label = anchorLabel(anchor, { notes, steps }, floor)
  return (
    <button
      type="button"
      className={styles.chip}
      data-kind={anchor.kind}
      tabIndex={tabIndex}
      title={anchor.kind === 'chart' ? floor.anchor.show(label) : floor.anchor.goTo(label)}
      onClick={() => show(anchor)}
    >
      <AnchorIcon />
      <span className={styles.label} dir="auto">
        {label}
      </span>
    </button>
  )
}

function show(anchor: Anchor): void {
  if (anchor.kind === 'chart') highlight(anchor.place)
  else jumpTo({ kind: anchor.kind === 'note' ? 'notes' : 'steps', id: anchor.id })
}

type Floor = typeof floorMessages

export const placeLabel = (place: ChartPlace, floor: Floor): string =>
  place.kind === 'pin'
    ? floor.place.pin(place.ear, place.frequency, place.level)
    : floor.place.range(place.ear, place.from, place.to)

export function anchorLabel(
  anchor: Anchor,
  named: { readonly notes: readonly NamedRecord[]; readonly steps: readonly NamedRecord[] },
  floor: Floor,
): string {
  if (anchor.kind === 'chart') return placeLabel(anchor.place, floor)
  const records = anchor.kind === 'note' ? named.notes : named.steps
  return records.find(({ id }) => id === anchor.id)?.label ?? floor.anchor.missing
}
