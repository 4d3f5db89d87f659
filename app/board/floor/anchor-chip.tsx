import { highlight } from '@/app/board/chart-pick.ts'
import { jumpTo } from '@/app/board/jump.ts'
import { optionText } from '@/app/board/plan/option-text.ts'
import { NoteIcon, OptionIcon, PlaceIcon, ScenarioIcon, StepIcon } from '@/app/components/icons.tsx'
import { type Messages, useMessages } from '@/app/messages/use-messages.ts'
import { onlyId } from '@/lib/board/identity.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { Anchor } from '@/lib/board/records/question.ts'
import styles from './anchor-chip.module.css'
import type { FloorDesk } from './floor-desk.ts'

/** Records that a question may point at, with their names. */
export type Named = Pick<FloorDesk, 'notes' | 'steps' | 'scenarios'>

interface AnchorChipProps {
  readonly anchor: Anchor
  readonly named: Named
  readonly tabIndex?: 0 | -1
}

const icons = {
  chart: PlaceIcon,
  note: NoteIcon,
  step: StepIcon,
  option: OptionIcon,
  scenario: ScenarioIcon,
} as const

/** What a question is about; shows the place on the audiogram, or goes to the record. */
export function AnchorChip({ anchor, named, tabIndex = 0 }: AnchorChipProps) {
  const messages = useMessages()
  const { floor } = messages
  const AnchorIcon = icons[anchor.kind]
  const label = anchorLabel(anchor, named, messages)
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

const tableOf = { note: 'notes', step: 'steps', scenario: 'scenarios' } as const

function show(anchor: Anchor): void {
  if (anchor.kind === 'chart') highlight(anchor.place)
  else if (anchor.kind === 'option') jumpTo({ kind: 'plan', id: onlyId, option: anchor.option })
  else jumpTo({ kind: tableOf[anchor.kind], id: anchor.id })
}

export const placeLabel = (place: ChartPlace, floor: Messages['floor']): string =>
  place.kind === 'pin'
    ? floor.place.pin(place.ear, place.frequency, place.level)
    : floor.place.range(place.ear, place.from, place.to)

export function anchorLabel(anchor: Anchor, named: Named, { floor, words }: Messages): string {
  if (anchor.kind === 'chart') return placeLabel(anchor.place, floor)
  if (anchor.kind === 'option') return optionText(anchor.option, undefined, words)
  return named[tableOf[anchor.kind]].find(({ id }) => id === anchor.id)?.label ?? floor.anchor.missing
}
