import PDFDocument from 'pdfkit'
import type { Messages } from '@/app/messages/for-report.ts'
import type { Sheet } from '../sheet.ts'
import { ink } from './ink.ts'
import { type Piece, piecesOf, type Setting } from './pieces.ts'
import { type ReportFonts, type TextStyle, Typesetter } from './typesetter.ts'

export interface PdfContent {
  readonly sheets: readonly Sheet[]
  readonly pseudonym: string
  /** in words, under the title of each page */
  readonly generated: string
  /** ISO 8601: the file's own date */
  readonly generatedAt: string
  /** the foot of every page */
  readonly foot: string
  readonly messages: Messages
}

export interface ReportPdf {
  readonly bytes: Uint8Array<ArrayBuffer>
  /** different signs that the embedded fonts do not have, and that stand as "?" */
  readonly unsettable: number
}

/** A4 in points, and what of it is written on. */
const page = { width: 595.28, height: 841.89, left: 34, right: 34, top: 28, bottom: 36 } as const
const room = page.height - page.top - page.bottom
/** Tried one after the other until a page that has to be one is one; below, letters could no longer be read. */
const scales = [1, 0.96, 0.92, 0.88, 0.84, 0.8, 0.76] as const

/** The report as a PDF file: text that can be selected and searched, fonts embedded, audiograms drawn as lines. */
export async function reportPdf(content: PdfContent, fonts: ReportFonts): Promise<ReportPdf> {
  const doc = new PDFDocument({
    size: 'A4',
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    // an empty name keeps the library from embedding a font of its own
    font: '',
    lang: content.messages.language,
    displayTitle: true,
    info: {
      Title: content.messages.words.labelled(content.pseudonym, content.messages.report.pageTitle),
      CreationDate: new Date(content.generatedAt),
    },
  })
  const file = bytesOf(doc)
  const setter = new Typesetter(doc, fonts)
  for (const sheet of content.sheets) drawSheet(sheet, content, doc, setter)
  drawFeet(content, doc, setter)
  doc.end()
  return { bytes: await file, unsettable: setter.unsettable }
}

function bytesOf(doc: PDFKit.PDFDocument): Promise<Uint8Array<ArrayBuffer>> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = []
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    doc.on('error', reject)
    doc.on('end', () => resolve(joined(chunks)))
  })
}

function joined(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const chunk of chunks) {
    bytes.set(chunk, at)
    at += chunk.length
  }
  return bytes
}

function drawSheet(sheet: Sheet, content: PdfContent, doc: PDFKit.PDFDocument, setter: Typesetter): void {
  const width = page.width - page.left - page.right
  const setting = (scale: number): Setting => ({
    doc,
    setter,
    messages: content.messages,
    left: page.left,
    width,
    scale,
  })
  const tries = sheet.kind === 'appendix' ? [1] : scales
  const fits = tries.map((scale) => piecesOf(sheet, content, setting(scale))).find((pieces) => heightOf(pieces) <= room)
  flow(fits ?? piecesOf(sheet, content, setting(tries.at(-1) ?? 1)), doc)
}

const heightOf = (pieces: readonly Piece[]): number => pieces.reduce((sum, { height }) => sum + height, 0)

function flow(pieces: readonly Piece[], doc: PDFKit.PDFDocument): void {
  doc.addPage()
  let top: number = page.top
  for (const piece of pieces) {
    if (top > page.top && top + piece.height > page.top + room) {
      doc.addPage()
      top = page.top
    }
    piece.draw(top)
    top += piece.height
  }
}

function drawFeet({ foot, messages }: PdfContent, doc: PDFKit.PDFDocument, setter: Typesetter): void {
  const style: TextStyle = { weight: 'regular', size: 6.5, color: ink.quiet }
  const { count } = doc.bufferedPageRange()
  const top = page.height - page.bottom + 10
  for (let index = 0; index < count; index++) {
    doc.switchToPage(index)
    const number = messages.report.page(index + 1, count)
    const [line] = setter.lines(foot, style, page.width - page.left - page.right - 40)
    if (line !== undefined) setter.draw(line, style, page.left, top)
    for (const of of setter.lines(number, style, 40)) setter.draw(of, style, page.width - page.right - of.width, top)
  }
}
