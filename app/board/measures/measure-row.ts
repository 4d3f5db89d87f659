import type { Messages } from '@/app/messages/use-messages.ts'
import type { BothEars } from '@/lib/audiometry/pairs.ts'
import type { Provenance } from '@/lib/audiometry/provenance.ts'

export type MeasureId = keyof Messages['measures']['names']

/** One line of "how computed": what it is, and the numbers. */
export interface HowLine {
  readonly name: string
  readonly text: string
}

/** A number in words with everything that made it. */
export interface MeasureCell {
  readonly value: string
  /** what is missing or uncertain about it */
  readonly remark?: string | undefined
  readonly how: readonly HowLine[]
  readonly sources: readonly Provenance[]
}

/** One measure: of each ear, or of both together. */
export type MeasureRow = {
  readonly id: MeasureId
  readonly convention: string
} & (
  | { readonly kind: 'ears'; readonly cells: Partial<BothEars<MeasureCell | undefined>> }
  | { readonly kind: 'case'; readonly cell: MeasureCell }
)
