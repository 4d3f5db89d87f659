import { labelled, levelsIn } from '@/app/audiogram/axis-labels.ts'
import {
  type ChartFrame,
  frameFor,
  frequenciesIn,
  isOctave,
  rangeFor,
  symbolRadius,
  xOf,
  yOf,
} from '@/app/audiogram/geometry.ts'
import { type ChartLayer, type ChartMark, levelOf } from '@/app/audiogram/layers.ts'
import { linePath, spotOf } from '@/app/audiogram/spots.ts'
import { arrowPath, outlineOf, symbolFor } from '@/app/audiogram/symbols.ts'
import type { Messages } from '@/app/messages/for-report.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { ink } from './ink.ts'
import type { TextStyle, Typesetter } from './typesetter.ts'

interface Drawing {
  readonly doc: PDFKit.PDFDocument
  readonly setter: Typesetter
  readonly frame: ChartFrame
  readonly messages: Messages
}

/** The chart is laid out larger and drawn smaller, so that its signs stay near the lines of their frequencies. */
const enlarged = 1.8
const axisSize = 5.5 * enlarged

/** The chart for a space in points: one octave is as long as 20 dB. */
export function chartFrame(layers: readonly ChartLayer[], space: { width: number; height: number }): ChartFrame {
  const marks = layers.flatMap((layer) => layer.marks)
  const range = rangeFor(
    marks.map(({ frequency, point }) => ({ frequency, level: levelOf(point) })),
    false,
  )
  return frameFor({ width: space.width * enlarged, height: space.height * enlarged }, range, axisSize)
}

/** An audiogram of lines and letters, drawn with its upper left corner at the origin. */
export function drawChart(drawing: Drawing, layers: readonly ChartLayer[]): void {
  drawing.doc.scale(1 / enlarged)
  drawAxes(drawing)
  for (const layer of layers) drawLayer(drawing, layer)
}

function drawAxes(drawing: Drawing): void {
  const { doc, frame, messages } = drawing
  const { plot } = frame
  const [left, right, bottom] = [plot.left, plot.left + plot.width, plot.top + plot.height]
  const line = (fromX: number, fromY: number, toX: number, toY: number, strong: boolean) =>
    doc
      .moveTo(fromX, fromY)
      .lineTo(toX, toY)
      .lineWidth((strong ? 0.7 : 0.35) * enlarged)
      .stroke(strong ? ink.strong : ink.rule)
  for (const level of levelsIn(frame.range)) {
    const y = yOf(frame, level)
    line(left, y, right, y, level === 0)
    put(drawing, String(level).replace('-', '−'), left - 2, y - axisSize * 0.6, 'end')
  }
  const shown = labelled(frame)
  for (const hz of frequenciesIn(frame.range)) {
    const x = xOf(frame, hz)
    if (!isOctave(hz)) doc.dash(1.2 * enlarged, { space: 1.2 * enlarged })
    line(x, plot.top, x, bottom, false)
    doc.undash()
    if (shown.has(hz)) put(drawing, String(hz), x, plot.top - axisSize * (isOctave(hz) ? 2.64 : 1.49), 'middle')
  }
  put(drawing, messages.audiogram.frequencyUnit, left - 2, plot.top - axisSize * 2.84, 'end')
  put(drawing, messages.audiogram.levelUnit.split(' ')[0] ?? '', left - 2, plot.top - axisSize * 1.74, 'end')
}

function put(
  { setter }: Drawing,
  text: string,
  x: number,
  top: number,
  anchor: 'end' | 'middle',
  style: TextStyle = { weight: 'regular', size: axisSize, color: ink.quiet },
): void {
  for (const line of setter.lines(text, style, Number.POSITIVE_INFINITY))
    setter.draw(line, style, x - line.width / (anchor === 'end' ? 1 : 2), top)
}

function drawLayer(drawing: Drawing, layer: ChartLayer): void {
  const { doc, frame } = drawing
  const color = ink.ear[layer.ear]
  for (const line of layer.lines) {
    const path = linePath(line, layer.ear, frame)
    if (path === '') continue
    if (line.route === 'bone') doc.dash(3 * enlarged, { space: 2 * enlarged })
    doc
      .path(path)
      .lineWidth((line.route === 'air' ? 0.8 : 0.5) * enlarged)
      .stroke(color)
    doc.undash()
  }
  for (const mark of layer.marks) drawMark(drawing, mark, layer.ear)
}

function drawMark(drawing: Drawing, mark: ChartMark, ear: Ear): void {
  const { doc, frame, messages } = drawing
  const level = levelOf(mark.point)
  if (level === undefined) return
  const choice = symbolFor({ ...mark, ear, noResponse: mark.point.kind === 'no-response' })
  const r = symbolRadius(frame)
  const { x, y } = spotOf(mark.frequency, level, choice, frame)
  const outline = outlineOf(choice.shape, r)
  doc.save()
  doc.translate(x, y)
  if (outline === undefined) {
    const style = { weight: 'bold', size: r * 2.2, color: ink.ear[ear] } as const
    put(drawing, choice.shape === 'letter-s' ? 'S' : 'A', 0, -r * 1.3, 'middle', style)
    const side = (ear === 'right' ? -1 : 1) * r * 1.5
    put(drawing, messages.audiogram.earLetters[ear], side, -r * 1.2, 'middle', { ...style, size: r * 1.3 })
  } else
    doc
      .path(outline)
      .lineWidth(0.8 * enlarged)
      .stroke(ink.ear[ear])
  if (choice.arrow !== undefined)
    doc
      .path(arrowPath(choice.arrow, r))
      .lineWidth(0.8 * enlarged)
      .stroke(ink.ear[ear])
  doc.restore()
}
