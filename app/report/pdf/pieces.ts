import type { Messages } from '@/app/messages/for-report.ts'
import type { Block, Chart, Entry, Sheet, Table } from '../sheet.ts'
import { chartFrame, drawChart } from './chart-drawing.ts'
import { ink } from './ink.ts'
import { leading, type TextStyle, type Typesetter } from './typesetter.ts'

/** A part of a page that is not cut: its height, and how it is drawn from a given distance below the top. Points. */
export interface Piece {
  readonly height: number
  readonly draw: (top: number) => void
}

export interface Setting {
  readonly doc: PDFKit.PDFDocument
  readonly setter: Typesetter
  readonly messages: Messages
  readonly left: number
  readonly width: number
  /** 1: as designed; smaller where a page would not hold what has to stand on it */
  readonly scale: number
}

const size = { title: 14, small: 7.6, tiny: 6.8, appendix: 9.5, lead: 11.5 } as const

export const piecesOf = (
  sheet: Sheet,
  { pseudonym, generated }: { readonly pseudonym: string; readonly generated: string },
  setting: Setting,
): readonly Piece[] => [
  text(
    setting.messages.words.labelled(pseudonym, sheet.heading),
    style(setting, 'bold', size.title, ink.text),
    setting,
  ),
  text(generated, style(setting, 'regular', size.small, ink.quiet), setting),
  rule(setting, 0.8),
  ...sheet.blocks.flatMap((block) => [gap(4 * setting.scale), ...blockPieces(block, sheet.kind, setting)]),
  gap(4 * setting.scale),
  ...sheet.cautions.map((caution) => text(caution, style(setting, 'regular', size.tiny, ink.quiet), setting)),
]

const style = ({ scale }: Setting, weight: TextStyle['weight'], points: number, color: string): TextStyle => ({
  weight,
  size: points * scale,
  color,
})

const gap = (height: number): Piece => ({ height, draw: () => undefined })

function text(words: string, of: TextStyle, { setter, left, width }: Setting, indent = 0): Piece {
  const lines = setter.lines(words, of, width - indent)
  const step = of.size * leading
  return {
    height: lines.length * step,
    draw: (top) => {
      for (const [index, line] of lines.entries()) setter.draw(line, of, left + indent, top + index * step)
    },
  }
}

const rule = ({ doc, left, width }: Setting, weight: number): Piece => ({
  height: 3,
  draw: (top) => {
    doc
      .moveTo(left, top + 1)
      .lineTo(left + width, top + 1)
      .lineWidth(weight)
      .stroke(ink.strong)
  },
})

function blockPieces(block: Block, kind: Sheet['kind'], setting: Setting): readonly Piece[] {
  switch (block.kind) {
    case 'warning':
      return [text(block.text, style(setting, 'bold', 9, ink.text), setting)]
    case 'facts':
      return [factsPiece(block.facts, setting)]
    case 'charts':
      return [chartsPiece(block.charts, setting)]
    case 'table':
      return tablePieces(block.table, block.tone === 'dense' ? size.tiny : size.small, setting)
    case 'list':
      return kind === 'appendix' ? longList(block, setting) : shortList(block, setting)
    default:
      return block satisfies never
  }
}

/** Names and values in two columns, filled downwards. */
function factsPiece(facts: readonly (readonly [string, string])[], setting: Setting): Piece {
  const nameWidth = 74
  const columnWidth = setting.width / 2
  const name = style(setting, 'regular', size.small, ink.quiet)
  const value = style(setting, 'bold', size.small, ink.text)
  const step = size.small * setting.scale * leading
  const half = Math.ceil(facts.length / 2)
  const columns = [facts.slice(0, half), facts.slice(half)].map((column) =>
    column.map(([label, words]) => ({
      label: setting.setter.lines(label, name, nameWidth - 4),
      lines: setting.setter.lines(words, value, columnWidth - nameWidth - 8),
    })),
  )
  const heights = columns.map((column) => column.reduce((sum, { lines }) => sum + lines.length * step, 0))
  return {
    height: Math.max(...heights),
    draw: (top) => {
      for (const [index, column] of columns.entries()) {
        const x = setting.left + index * columnWidth
        let y = top
        for (const { label, lines } of column) {
          for (const line of label) setting.setter.draw(line, name, x, y)
          for (const [at, line] of lines.entries()) setting.setter.draw(line, value, x + nameWidth, y + at * step)
          y += lines.length * step
        }
      }
    },
  }
}

function chartsPiece(charts: readonly Chart[], setting: Setting): Piece {
  const { doc, setter, left, width, scale, messages } = setting
  const title = style(setting, 'bold', size.small, ink.text)
  const fine = style(setting, 'regular', size.small, ink.quiet)
  const titleHeight = title.size * leading
  const room = { width: width / 2 - 24, height: 178 * scale }
  const frames = charts.map(({ layers }) => chartFrame(layers, room))
  return {
    height: titleHeight + room.height,
    draw: (top) => {
      for (const [index, { label, layers }] of charts.entries()) {
        const frame = frames[index]
        if (frame === undefined) continue
        const x = left + (index * width) / 2
        for (const line of setter.lines(label, title, width)) setter.draw(line, title, x, top)
        if (layers.length === 0) {
          for (const line of setter.lines(messages.report.notMeasuredYet, fine, width))
            setter.draw(line, fine, x, top + titleHeight)
          continue
        }
        doc.save()
        doc.translate(x, top + titleHeight)
        drawChart({ doc, setter, frame, messages }, layers)
        doc.restore()
      }
    },
  }
}

function tablePieces(table: Table, points: number, setting: Setting): readonly Piece[] {
  const of = (weight: TextStyle['weight'], color: string) => style(setting, weight, points, color)
  const caption = style(setting, 'regular', size.tiny, ink.quiet)
  const row = (cells: readonly string[], type: TextStyle, strong: boolean) =>
    rowPiece(cells, table, type, strong, setting)
  return [
    text(table.caption, caption, setting),
    row(
      table.columns.map(({ name }) => name),
      of('regular', ink.quiet),
      true,
    ),
    ...table.groups.flatMap(({ name, rows }) => [
      ...(name === undefined ? [] : [gap(2), text(name, of('bold', ink.text), setting)]),
      ...rows.map(({ cells }) => row(cells, of('regular', ink.text), false)),
    ]),
  ]
}

function rowPiece(
  cells: readonly string[],
  { columns }: Table,
  of: TextStyle,
  strong: boolean,
  setting: Setting,
): Piece {
  const { doc, setter, left, width } = setting
  const padding = 3
  const whole = columns.reduce((sum, { share }) => sum + share, 0)
  const step = of.size * leading
  let offset = 0
  const placed = columns.map(({ share, align }, index) => {
    const cellWidth = (width * share) / whole
    const inset = index === 0 ? 0 : padding
    const lines = setter.lines(cells[index] ?? '', of, cellWidth - inset)
    const x = left + offset + inset
    offset += cellWidth
    return { lines, x, room: cellWidth - inset, align }
  })
  const height = Math.max(...placed.map(({ lines }) => lines.length)) * step + 1.8
  return {
    height,
    draw: (top) => {
      for (const { lines, x, room, align } of placed)
        for (const [index, line] of lines.entries())
          setter.draw(line, of, align === 'end' ? x + room - line.width : x, top + 0.6 + index * step)
      doc
        .moveTo(left, top + height)
        .lineTo(left + width, top + height)
        .lineWidth(strong ? 0.6 : 0.3)
        .stroke(strong ? ink.strong : ink.rule)
    },
  }
}

type ListBlock = Extract<Block, { kind: 'list' }>

function shortList({ title, entries, tone }: ListBlock, setting: Setting): readonly Piece[] {
  const points = tone === 'fine' ? size.tiny : size.small
  const type = style(setting, 'regular', points, ink.text)
  return [
    text(title, style(setting, 'bold', points, ink.text), setting),
    ...entries.map((entry) => text(entry.text, type, setting)),
  ]
}

function longList({ title, entries }: ListBlock, setting: Setting): readonly Piece[] {
  const [first, ...rest] = entries.map((entry) => entryPieces(entry, setting))
  // a title is not left alone at the foot of a page
  const head = joined([
    gap(6),
    text(title, style(setting, 'bold', size.lead, ink.text), setting),
    ...(first?.slice(0, 1) ?? []),
  ])
  return [head, ...(first?.slice(1) ?? []), ...rest.flat()]
}

/** A long text is cut between its lines where the page ends. */
function entryPieces({ text: words, under = [] }: Entry, setting: Setting): readonly Piece[] {
  const plain = style(setting, 'regular', size.appendix, ink.text)
  const quiet = style(setting, 'regular', size.appendix, ink.quiet)
  const cut = (of: string, type: TextStyle, indent: number) =>
    setting.setter.lines(of, type, setting.width - indent).map(
      (line): Piece => ({
        height: type.size * leading,
        draw: (top) => setting.setter.draw(line, type, setting.left + indent, top),
      }),
    )
  return [...cut(words, plain, 0), ...under.flatMap((line) => cut(line, quiet, 12)), gap(5)]
}

const joined = (pieces: readonly Piece[]): Piece => ({
  height: pieces.reduce((sum, { height }) => sum + height, 0),
  draw: (top) => {
    let y = top
    for (const piece of pieces) {
      piece.draw(y)
      y += piece.height
    }
  },
})
