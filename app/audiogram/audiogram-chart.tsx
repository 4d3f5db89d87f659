'use client'

import { equalityDeep } from 'lib0/function'
import { type CSSProperties, useId, useMemo, useRef, useState } from 'react'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import styles from './audiogram-chart.module.css'
import { ChartAxes } from './chart-axes.tsx'
import { type ChartFinding, FindingMarks } from './chart-findings.tsx'
import { ChartGhost, type Ghost } from './chart-ghost.tsx'
import { type LevelBand, LevelBands } from './chart-intervals.tsx'
import { CouldNotTestLanes, lanesHeight, laneTop } from './chart-lanes.tsx'
import { LayerMarks } from './chart-layers.tsx'
import { BandBracket, Highlight, Pin, QuestionMark } from './chart-notes.tsx'
import { SharedPointers } from './chart-pointers.tsx'
import { ChartStamps } from './chart-stamps.tsx'
import { type ChartFrame, frameFor, rangeFor } from './geometry.ts'
import { couldNotTestLanes } from './lanes.ts'
import { type ChartLayer, levelOf } from './layers.ts'
import { bracketsOf, type ChartAnchor, type ChartNote, type SharedPointer } from './notes.ts'
import { type ChartPointing, usePointing } from './pointing.ts'
import { stampsFor } from './stamps.ts'
import { type BoxSize, useBoxSize } from './use-box-size.ts'

export interface AudiogramChartProps {
  /** what is shown, in words, for people who do not see it */
  readonly label: string
  /** id of the table with the same numbers */
  readonly describedBy?: string | undefined
  readonly layers: readonly ChartLayer[]
  /** show 9 to 16 kHz even when there is no point; with a point there they are always shown */
  readonly extended?: boolean
  /** `box` fits the chart into its container's height too: the container has a definite height then */
  readonly fit?: 'width' | 'box'
  /** height of the axis text in CSS pixels */
  readonly textSize?: number
  readonly bands?: readonly LevelBand[]
  readonly notes?: readonly ChartNote[]
  readonly anchors?: readonly ChartAnchor[]
  /** marks on points that somebody should look at */
  readonly findings?: readonly ChartFinding[]
  /** a mark was pressed; without it the marks let presses through */
  readonly onFinding?: ((key: string) => void) | undefined
  readonly pointers?: readonly SharedPointer[]
  /** a place that somebody wants to see now */
  readonly highlighted?: ChartPlace | undefined
  /** what is about to be entered */
  readonly ghost?: Ghost | undefined
  /** presses, moves and releases in the plot, in Hz and dB HL; the chart takes touch drags while `grabs` */
  readonly onPointing?: ((pointing: ChartPointing) => void) | undefined
  readonly grabs?: boolean
}

const none: readonly never[] = []
/** Width before the first layout, and on paper. */
const widthBeforeLayout = 640

/**
 * Pure-tone audiogram: ISO 8253-1 / ASHA signs, frequency on a log axis, dB HL downwards, one octave as long as 20 dB.
 * Layers that come later are drawn on top. What is not current is stamped on the chart itself.
 */
export function AudiogramChart(props: AudiogramChartProps) {
  const { layers, notes = none, anchors = none, pointers = none, bands = none, ghost, grabs = false } = props
  const box = useRef<HTMLDivElement>(null)
  const size = useBoxSize(box)
  const patternId = useId()
  const drawing = useDrawing(props, size)
  const { frame, lanes, brackets } = drawing
  const pointing = usePointing(frame, props.onPointing)
  return (
    <div ref={box} className={styles.box} data-fit={props.fit ?? 'width'}>
      <svg
        className={styles.chart}
        style={{ '--chart-text': `${frame.textSize}px`, '--chart-ratio': frame.width / frame.height } as CSSProperties}
        viewBox={`0 0 ${frame.width} ${frame.height}`}
        role="img"
        aria-label={props.label}
        aria-describedby={props.describedBy}
        data-octave={frame.octave}
        data-grabs={grabs}
        {...pointing}
      >
        <ChartAxes frame={frame} />
        <LevelBands bands={bands} frame={frame} />
        {brackets.map((bracket) => (
          <BandBracket
            key={bracket.id}
            bracket={bracket}
            top={laneTop(frame, lanes.length + bracket.lane)}
            frame={frame}
          />
        ))}
        <CouldNotTestLanes lanes={lanes} frame={frame} />
        <ChartStamps stamps={drawing.stamps} layers={layers} frame={frame} patternId={patternId} />
        {layers.map((layer) => (
          <LayerMarks key={layer.id} layer={layer} frame={frame} />
        ))}
        <FindingMarks findings={props.findings ?? none} frame={frame} onPress={props.onFinding} />
        {anchors.map((anchor) => (
          <QuestionMark key={anchor.id} anchor={anchor} frame={frame} />
        ))}
        {notes.map((note) => (
          <Pin key={note.id} note={note} frame={frame} />
        ))}
        {props.highlighted !== undefined && <Highlight place={props.highlighted} frame={frame} />}
        {ghost !== undefined && <ChartGhost ghost={ghost} frame={frame} />}
        <SharedPointers pointers={pointers} frame={frame} />
      </svg>
    </div>
  )
}

function useDrawing(props: AudiogramChartProps, size: BoxSize | undefined) {
  const { audiogram } = useMessages()
  const { layers, notes = none, anchors = none, extended = false, textSize = 13, fit = 'width' } = props
  const drawing = useMemo(() => {
    const range = rangeFor(pointsOf(layers, notes, anchors), extended)
    const space = { width: size?.width ?? widthBeforeLayout, height: fit === 'box' ? size?.height : undefined }
    const lanes = couldNotTestLanes(layers)
    const brackets = bracketsOf(notes, anchors, frameFor(space, range, textSize), audiogram)
    const laneCount = lanes.length + Math.max(0, ...brackets.map(({ lane }) => lane + 1))
    const frame = frameFor(space, range, textSize, lanesHeight(laneCount, textSize))
    return { lanes, brackets, frame, stamps: stampsFor(layers) }
  }, [audiogram, layers, notes, anchors, extended, textSize, fit, size])
  return { ...drawing, frame: useSameFrame(drawing.frame) }
}

/** The frame from before while its lengths are the same, so that what only stands in it is not drawn again. */
function useSameFrame(frame: ChartFrame): ChartFrame {
  const [kept, setKept] = useState(frame)
  if (equalityDeep(kept, frame)) return kept
  setKept(frame)
  return frame
}

function* pointsOf(
  layers: readonly ChartLayer[],
  notes: readonly ChartNote[],
  anchors: readonly ChartAnchor[],
): Generator<{ frequency: number; level: number | undefined }> {
  for (const { marks } of layers) for (const { frequency, point } of marks) yield { frequency, level: levelOf(point) }
  for (const { place } of [...notes, ...anchors])
    yield place.kind === 'pin' ? place : { frequency: place.to, level: undefined }
}
