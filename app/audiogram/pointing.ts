import { type PointerEvent, useMemo } from 'react'
import { type ChartFrame, dbHlAt, hzAt } from './geometry.ts'

/** Something a person does with mouse, pen or finger on the chart. */
export interface ChartPointing {
  readonly phase: 'press' | 'move' | 'release' | 'leave'
  readonly hz: number
  readonly dbHl: number
  /** the id of the pin or bracket under the press */
  readonly note: string | undefined
  /** the main button or a finger is down */
  readonly down: boolean
}

type Handler = (event: PointerEvent<SVGSVGElement>) => void
interface PointingHandlers {
  readonly onPointerDown?: Handler
  readonly onPointerMove?: Handler
  readonly onPointerUp?: Handler
  readonly onPointerCancel?: Handler
  readonly onPointerLeave?: Handler
}

/** Handlers for the chart's `svg`; none when nobody listens. */
export function usePointing(
  frame: ChartFrame,
  onPointing: ((pointing: ChartPointing) => void) | undefined,
): PointingHandlers {
  return useMemo(() => {
    if (onPointing === undefined) return {}
    const tell =
      (phase: ChartPointing['phase']): Handler =>
      (event) => {
        if (event.button > 0) return
        if (phase === 'press') event.currentTarget.setPointerCapture(event.pointerId)
        onPointing({ phase, ...placeOf(event, frame), note: noteUnder(event.target), down: event.buttons === 1 })
      }
    return {
      onPointerDown: tell('press'),
      onPointerMove: tell('move'),
      onPointerUp: tell('release'),
      onPointerCancel: tell('leave'),
      onPointerLeave: tell('leave'),
    }
  }, [frame, onPointing])
}

function placeOf(event: PointerEvent<SVGSVGElement>, frame: ChartFrame): { hz: number; dbHl: number } {
  const box = event.currentTarget.getBoundingClientRect()
  const scale = frame.width / box.width
  return {
    hz: hzAt(frame, (event.clientX - box.left) * scale),
    dbHl: dbHlAt(frame, (event.clientY - box.top) * scale),
  }
}

const noteUnder = (target: EventTarget): string | undefined =>
  target instanceof Element ? (target.closest('[data-note]')?.getAttribute('data-note') ?? undefined) : undefined
