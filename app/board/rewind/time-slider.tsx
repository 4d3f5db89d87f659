'use client'

import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef } from 'react'
import { useMessages } from '@/app/messages/for-rewind.ts'
import { MarkSign, markKinds } from './mark-sign.tsx'
import styles from './time-slider.module.css'
import type { Session } from './use-timeline.ts'

interface TimeSliderProps {
  readonly session: Session
  readonly atMs: number
  /** the first of two moments that are compared */
  readonly heldMs: number | undefined
  /** the moment in words */
  readonly says: string
  readonly onMove: (ms: number) => void
}

const minuteMs = 60_000
/** A pointer this near to a mark means the mark. */
const snapPx = 6
/** Marks of one kind that stand closer together than this part of the line look like one and are drawn once. */
const drawnApart = 1 / 400

/** The time line: a slider over the session with its marks. Arrow keys go from mark to mark, with Shift by a minute. */
export function TimeSlider({ session, atMs, heldMs, says, onMove }: TimeSliderProps) {
  const { rewind } = useMessages()
  const { scale } = session
  const slider = useRef<HTMLDivElement>(null)
  useEffect(() => slider.current?.focus(), [])
  const within = (ms: number) => onMove(Math.min(Math.max(ms, scale.fromMs), scale.toMs))
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return
    const wanted = momentByKey(event, session, atMs)
    if (wanted === undefined) return
    event.preventDefault()
    within(wanted)
  }
  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId)
    else if (!event.currentTarget.hasPointerCapture(event.pointerId)) return
    const { left, width } = event.currentTarget.getBoundingClientRect()
    const place = (event.clientX - left) / width
    onMove(nearestMark(session, place, snapPx / width) ?? scale.timeAt(place))
  }
  return (
    <div
      ref={slider}
      className={styles.slider}
      role="slider"
      tabIndex={0}
      aria-label={rewind.moment}
      aria-valuemin={scale.fromMs}
      aria-valuemax={scale.toMs}
      aria-valuenow={atMs}
      aria-valuetext={says}
      onKeyDown={onKeyDown}
      onPointerDown={onPointer}
      onPointerMove={onPointer}
    >
      <Marks session={session} />
      {heldMs !== undefined && <span className={styles.held} style={placed(scale.placeOf(heldMs))} />}
      <span className={styles.hand} style={placed(scale.placeOf(atMs))} />
    </div>
  )
}

const placed = (place: number) => ({ insetInlineStart: `${(place * 100).toFixed(2)}%` })

function Marks({ session: { scale, marks } }: { readonly session: Session }) {
  const rows = useMemo(
    () =>
      markKinds.map((kind) => {
        const places = marks.filter(({ mark }) => mark.kind === kind).map(({ at }) => scale.placeOf(Date.parse(at)))
        return { kind, places: [...new Set(places.map((place) => Math.round(place / drawnApart) * drawnApart))] }
      }),
    [scale, marks],
  )
  return (
    <>
      {rows.map(({ kind, places }) => (
        <span key={kind} className={styles.row}>
          {places.map((place) => (
            <span key={place} className={styles.mark} style={placed(place)}>
              <MarkSign kind={kind} />
            </span>
          ))}
        </span>
      ))}
      {scale.cuts.map((place) => (
        <span key={place} className={styles.cut} style={placed(place)} />
      ))}
    </>
  )
}

/** Where a key leads; undefined for keys that are not the slider's. */
export function momentByKey(
  { key, shiftKey }: { readonly key: string; readonly shiftKey: boolean },
  session: Session,
  atMs: number,
): number | undefined {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return shiftKey ? atMs + minuteMs : markAfter(session, atMs)
    case 'ArrowLeft':
    case 'ArrowDown':
      return shiftKey ? atMs - minuteMs : markBefore(session, atMs)
    case 'Home':
      return session.scale.fromMs
    case 'End':
      return session.scale.toMs
    default:
      return undefined
  }
}

/** The next mark, or the end of the line. */
export const markAfter = ({ marks, scale }: Session, ms: number): number =>
  marks.map(({ at }) => Date.parse(at)).find((at) => at > ms) ?? scale.toMs

/** The mark before, or the beginning of the line. */
export const markBefore = ({ marks, scale }: Session, ms: number): number =>
  marks.map(({ at }) => Date.parse(at)).findLast((at) => at < ms) ?? scale.fromMs

function nearestMark({ marks, scale }: Session, place: number, within: number): number | undefined {
  let nearest: { readonly ms: number; readonly away: number } | undefined
  for (const { at } of marks) {
    const ms = Date.parse(at)
    const away = Math.abs(scale.placeOf(ms) - place)
    if (away <= within && (nearest === undefined || away < nearest.away)) nearest = { ms, away }
  }
  return nearest?.ms
}
