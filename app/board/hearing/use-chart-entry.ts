import { useCallback, useState } from 'react'
import type { Ghost } from '@/app/audiogram/chart-ghost.tsx'
import { rangeFor } from '@/app/audiogram/geometry.ts'
import { levelOf } from '@/app/audiogram/layers.ts'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import { type HearingTest, type Point, type PointKey, placeOfPoint } from '@/lib/board/records/hearing-test.ts'
import { type Brush, changesOf, type PointChanges, pointOf, type Stroke, strokeAt, strokeMoved } from './chart-entry.ts'

interface ChartEntry {
  readonly ghost: Ghost | undefined
  readonly onPointing: (pointing: ChartPointing) => void
  /** the point that was entered last */
  readonly last: PointKey | undefined
  forget(): void
}

/** Entering thresholds of one test with the pointer on the chart. */
export function useChartEntry(
  test: HearingTest | undefined,
  brush: Brush,
  onChanges: (changes: PointChanges) => void,
): ChartEntry {
  const { audiogram } = useMessages()
  const [stroke, setStroke] = useState<Stroke>()
  const [pressed, setPressed] = useState(false)
  const [last, setLast] = useState<PointKey>()
  const points = test?.points ?? {}
  const range = rangeFor(
    Object.entries(points).map(([key, point]) => ({ ...placeOfPoint(key), level: levelOf(point) })),
    brush.frequencies.some((frequency) => frequency > 8000),
  )

  const onPointing = (pointing: ChartPointing) => {
    if (pointing.phase === 'leave') {
      setStroke(undefined)
      setPressed(false)
    } else if (pointing.phase === 'release') {
      if (pressed && stroke !== undefined) {
        const changes = changesOf(stroke, brush, points)
        onChanges(changes)
        setLast([...changes.keys()].at(-1))
      }
      setPressed(false)
      setStroke(undefined)
    } else if (pointing.phase === 'move' && pressed && stroke !== undefined) {
      setStroke(strokeMoved(stroke, pointing, brush, range))
    } else {
      setPressed(pointing.phase === 'press')
      setStroke(strokeAt(pointing, brush, range, points))
    }
  }

  const point: Point | undefined = stroke === undefined ? undefined : pointOf(stroke, brush, points)
  const level = point === undefined ? undefined : levelOf(point)
  const ghost =
    stroke === undefined || test === undefined || point === undefined || level === undefined
      ? undefined
      : {
          ear: test.ear,
          mark: { route: brush.route, masked: brush.masked, frequency: stroke.frequency, point },
          readout: audiogram.readout(test.ear, brush.route, stroke.frequency, audiogram.pointInWords(point)),
        }
  return { ghost, onPointing, last, forget: useCallback(() => setLast(undefined), []) }
}
