import type * as Y from 'yjs'
import type { ParticipantId } from '../identity.ts'
import { tableOf } from '../layout.ts'
import { readRecord } from '../reading.ts'
import type { VideoDelay } from '../records/video-delay.ts'
import { summariseDelays } from '../video-delay.ts'
import { addRecord, type Pen, removeRecord } from './writing.ts'

/** Keeps the writer's own video delay; one measured before is replaced. */
export function keepVideoDelay(doc: Y.Doc, pen: Pen, measured: Pick<VideoDelay, 'delaysMs' | 'clockErrorMs'>): void {
  addRecord(doc, pen, 'videoDelays', { ...measured, delaysMs: [...measured.delaysMs] }, pen.participant)
}

/** Forgets the writer's own video delay: what they write from now on carries no moment of the picture. */
export function forgetVideoDelay(doc: Y.Doc, pen: Pen): void {
  if (tableOf(doc, 'videoDelays').has(pen.participant)) removeRecord(doc, 'videoDelays', pen.participant)
}

/** How late somebody sees the operation, ms, by their last measurement; undefined when there is none. */
export function videoDelayOf(doc: Y.Doc, participant: ParticipantId): number | undefined {
  const measured = readRecord(doc, 'videoDelays', participant)
  return measured === undefined ? undefined : summariseDelays(measured.delaysMs).medianMs
}
