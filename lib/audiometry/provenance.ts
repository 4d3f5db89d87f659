/**
 * How sure we are that a number is what its source prints.
 * - `confirmed`: the same number was seen in the source or in an independent public copy of it;
 * - `from memory, unconfirmed`: nobody has held it against the source yet, and the screen says so;
 * - `common practice, no source`: a habit of the trade, or a choice of this board where the trade has none.
 */
export type SourceStatus = 'confirmed' | 'from memory, unconfirmed' | 'common practice, no source'

/** Where a rule or table comes from. `reservation` names the part that is less sure than `status` says. */
export interface Provenance {
  readonly source: string
  readonly status: SourceStatus
  readonly reservation?: string
}
