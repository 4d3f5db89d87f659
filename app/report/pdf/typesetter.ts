/** Font files of the document: Latin letters, and the rest of the Latin script. WOFF or TrueType. */
export interface ReportFonts {
  readonly regular: readonly [latin: Uint8Array, latinExtended: Uint8Array]
  readonly bold: readonly [latin: Uint8Array, latinExtended: Uint8Array]
}

export interface TextStyle {
  readonly weight: 'regular' | 'bold'
  /** points */
  readonly size: number
  readonly color: string
}

/** A stretch of text in one font. */
interface Run {
  readonly font: string
  readonly text: string
}

export interface Line {
  readonly runs: readonly Run[]
  /** points */
  readonly width: number
}

/** What of the library's current font tells which letters it has; its own types leave it out. */
interface WithCurrentFont {
  readonly _font: { readonly font: { hasGlyphForCodePoint(codePoint: number): boolean } }
}

/** Distance of base lines, in sizes of the letters. */
export const leading = 1.2
const ascent = 0.94

/** Breaks text into lines and draws them, each letter in the first font that has it. */
export class Typesetter {
  private readonly missing = new Set<string>()
  private readonly fontOf = new Map<string, string>()
  private readonly widths = new Map<string, number>()
  private readonly doc: PDFKit.PDFDocument

  constructor(doc: PDFKit.PDFDocument, fonts: ReportFonts) {
    this.doc = doc
    for (const weight of ['regular', 'bold'] as const)
      fonts[weight].forEach((font, index) => {
        doc.registerFont(`${weight}-${index}`, font as Buffer)
      })
  }

  /** How many different signs no font has; each stands as "?". */
  get unsettable(): number {
    return this.missing.size
  }

  /** @param width points */
  lines(text: string, style: TextStyle, width: number): readonly Line[] {
    return text.split('\n').flatMap((paragraph) => this.broken(paragraph, style, width))
  }

  widthOf(text: string, style: TextStyle): number {
    return this.set(text, style).width
  }

  /** @param top of the line, in points from the top of the page */
  draw({ runs }: Line, style: TextStyle, x: number, top: number): void {
    let at = x
    for (const { font, text } of runs) {
      this.doc.font(font).fontSize(style.size).fillColor(style.color)
      this.doc.text(text, at, top + style.size * ascent, { lineBreak: false, baseline: 'alphabetic' })
      at += this.measured(font, text, style.size)
    }
  }

  private broken(paragraph: string, style: TextStyle, width: number): readonly Line[] {
    const lines: string[] = []
    let line = ''
    for (const word of paragraph.split(' ').flatMap((whole) => this.piecesOf(whole, style, width))) {
      const longer = line === '' ? word : `${line} ${word}`
      if (line !== '' && this.widthOf(longer, style) > width) {
        lines.push(line)
        line = word
      } else line = longer
    }
    return [...lines, line].map((text) => this.set(text, style))
  }

  /** A word that is longer than a line is cut where the line ends. */
  private piecesOf(word: string, style: TextStyle, width: number): readonly string[] {
    if (this.widthOf(word, style) <= width) return [word]
    const pieces: string[] = []
    let piece = ''
    for (const sign of word) {
      if (piece !== '' && this.widthOf(piece + sign, style) > width) {
        pieces.push(piece)
        piece = ''
      }
      piece += sign
    }
    return [...pieces, piece]
  }

  private set(text: string, style: TextStyle): Line {
    const runs: { font: string; text: string }[] = []
    for (const sign of text) {
      const font = this.fontFor(sign, style.weight)
      const letter = font === undefined ? '?' : sign
      const last = runs.at(-1)
      const wanted = font ?? `${style.weight}-0`
      if (last?.font === wanted) last.text += letter
      else runs.push({ font: wanted, text: letter })
    }
    const width = runs.reduce((sum, run) => sum + this.measured(run.font, run.text, style.size), 0)
    return { runs, width }
  }

  private fontFor(sign: string, weight: TextStyle['weight']): string | undefined {
    const key = `${weight} ${sign}`
    const known = this.fontOf.get(key)
    if (known !== undefined) return known
    const found = [`${weight}-0`, `${weight}-1`].find((font) => this.has(font, sign))
    if (found === undefined) this.missing.add(sign)
    else this.fontOf.set(key, found)
    return found
  }

  private has(font: string, sign: string): boolean {
    this.doc.font(font)
    return (this.doc as unknown as WithCurrentFont)._font.font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0)
  }

  private measured(font: string, text: string, size: number): number {
    const key = `${font} ${text}`
    const known = this.widths.get(key)
    if (known !== undefined) return known * size
    const width = this.doc.font(font).fontSize(1).widthOfString(text)
    this.widths.set(key, width)
    return width * size
  }
}
