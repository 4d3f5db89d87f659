import { readFile } from 'node:fs/promises'
import { extractText, getDocumentProxy } from 'unpdf'
import { describe, expect, it } from 'vitest'
import { appendixSheet } from '../../../app/report/appendix-sheet.ts'
import { reportPdf } from '../../../app/report/pdf/report-pdf.ts'
import type { ReportFonts } from '../../../app/report/pdf/typesetter.ts'
import { publicationSheet } from '../../../app/report/publication-sheet.ts'
import { recordSheet } from '../../../app/report/record-sheet.ts'
import type { ReportAppendix } from '../../../lib/report/appendix.ts'
import { caseReport, type ReportRecords } from '../../../lib/report/case-report.ts'
import { contingency, note, question } from '../../fixtures/board-records.ts'
import { reportRecords } from '../../fixtures/report-case.ts'
import { messages } from '../../support/messages.ts'

const fontFile = async (part: string) =>
  new Uint8Array(
    await readFile(
      new URL(
        `../../../node_modules/@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${part}-normal.woff`,
        import.meta.url,
      ),
    ),
  )
const [regular, regularExtended, bold, boldExtended] = await Promise.all(
  ['latin-400', 'latin-ext-400', 'latin-700', 'latin-ext-700'].map(fontFile),
)
const fonts = { regular: [regular, regularExtended], bold: [bold, boldExtended] } as ReportFonts
const nothing: ReportAppendix = { decisions: [], otherVotes: [], answered: [], deferred: [] }

function pdfOf(
  records: ReportRecords,
  appendix = nothing,
  pseudonym = 'Heron',
  ears: 'operated' | 'both' = 'operated',
) {
  const report = caseReport(records, { ears })
  const words = { messages, nameOf: () => 'Somebody' }
  const sheets = [recordSheet(report, words), publicationSheet(report, words), appendixSheet(report, appendix, words)]
  const generated = messages.report.generated('1 Jul 2026, 10:00')
  const foot = messages.report.foot(pseudonym, '1 Jul 2026, 10:00')
  return reportPdf({ sheets, pseudonym, generated, generatedAt: '2026-07-01T10:00:00.000Z', foot, messages }, fonts)
}

/** Text of each page as a reader of PDF files finds it, spaces as one. */
async function pagesOf(bytes: Uint8Array): Promise<readonly string[]> {
  const { text } = await extractText(new Uint8Array(bytes), { mergePages: false })
  return text.map((page) => page.replaceAll(/\s+/g, ' '))
}

describe('the report as a PDF file', () => {
  it('has a page for the record, one for the publication and the appendix, with text that can be read', async () => {
    const { bytes, unsettable } = await pdfOf(reportRecords())
    const [record = '', publication = '', appendix = '', ...rest] = await pagesOf(bytes)
    expect(rest).toEqual([])
    expect(unsettable).toBe(0)
    expect(record).toContain(`Heron: ${messages.report.heading.record}`)
    expect(record).toContain(messages.report.forecast.none)
    expect(record).toContain('Decision support')
    for (const name of Object.values(messages.report.standard).slice(1)) expect(publication).toContain(name)
    expect(publication).toContain('33.8 10 +23.8')
    expect(publication).toContain('10 dB or less')
    expect(appendix).toContain(messages.report.appendix.noDecisions)
  })

  it('names 6 and 8 kHz where they were not measured', async () => {
    const [, publication = ''] = await pagesOf((await pdfOf(reportRecords())).bytes)
    expect(publication).toContain(messages.report.value.missing([8000]))
    expect(publication).toContain(messages.report.value.missing([6000, 8000]))
  })

  it('says on both pages that there is no outcome yet', async () => {
    const pages = await pagesOf((await pdfOf(reportRecords({ visits: [], operatedOn: undefined }))).bytes)
    for (const page of pages.slice(0, 2)) expect(page).toContain(messages.report.noOutcome)
  })

  it('embeds its fonts and draws without pictures', async () => {
    const { bytes } = await pdfOf(reportRecords())
    const raw = new TextDecoder('latin1').decode(bytes)
    const fontNames = [...raw.matchAll(/\/BaseFont \/([^\s/]+)/g)].map(([, name]) => name)
    expect(fontNames.length).toBeGreaterThan(0)
    for (const name of fontNames) expect(name).toMatch(/^[A-Z]{6}\+AtkinsonHyperlegible/)
    expect(raw).toMatch(/\/FontFile[23]/)
    expect(raw).not.toContain('/Subtype /Image')
    const document = await getDocumentProxy(new Uint8Array(bytes))
    expect((await document.getMetadata()).info).toMatchObject({ Title: 'Heron: Report' })
  })

  it('keeps record and publication to one page each with both ears and more than there is room for', async () => {
    const many = Array.from({ length: 30 }, (_, index) => contingency(`c-${index}`, { plan: 'long plan '.repeat(90) }))
    const appendix = {
      ...nothing,
      decisions: Array.from({ length: 40 }, (_, index) => ({ note: note(`n-${index}`), votes: [] })),
      answered: [
        question('q', { answer: { by: 'p', at: '2026-03-10T09:00:00.000Z', text: 'yes', saidBy: 'Surgeon Sand' } }),
      ],
    }
    const pages = await pagesOf((await pdfOf(reportRecords({ contingencies: many }), appendix, 'Heron', 'both')).bytes)
    expect(pages[0]).toContain(messages.report.heading.record)
    expect(pages[1]).toContain(messages.report.heading.publication)
    expect(pages[2]).toContain(messages.report.heading.appendix)
    expect(pages.length).toBeGreaterThan(3)
    expect(pages[0]).toContain(messages.report.contingencies.more(26))
    expect(pages.join(' ')).toContain('Surgeon Sand')
    expect(pages.at(-1)).toContain(messages.report.page(pages.length, pages.length))
  })

  it('sets letters of the whole Latin script, and tells how many others it could not', async () => {
    const { bytes, unsettable } = await pdfOf(reportRecords(), nothing, 'Łąkowa жук')
    expect(unsettable).toBe(3)
    expect((await pagesOf(bytes))[0]).toContain('Łąkowa ???')
  })
})
