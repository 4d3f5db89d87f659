import type { ReportFonts } from './typesetter.ts'

/** Served by this installation with the page's own files: nothing is asked of anybody else. */
const files = {
  regular: [
    new URL(
      '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff',
      import.meta.url,
    ),
    new URL(
      '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff',
      import.meta.url,
    ),
  ],
  bold: [
    new URL(
      '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff',
      import.meta.url,
    ),
    new URL(
      '@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff',
      import.meta.url,
    ),
  ],
} as const

let loaded: Promise<ReportFonts> | undefined

/** @throws TypeError when the server cannot be reached and the fonts were not fetched before */
export function loadFonts(): Promise<ReportFonts> {
  loaded ??= fetchFonts().catch((fault: unknown) => {
    loaded = undefined
    throw fault
  })
  return loaded
}

async function fetchFonts(): Promise<ReportFonts> {
  const [regular, regularExtended, bold, boldExtended] = await Promise.all([
    bytesOf(files.regular[0]),
    bytesOf(files.regular[1]),
    bytesOf(files.bold[0]),
    bytesOf(files.bold[1]),
  ])
  return { regular: [regular, regularExtended], bold: [bold, boldExtended] }
}

async function bytesOf(address: URL): Promise<Uint8Array> {
  const response = await fetch(address)
  if (!response.ok) throw new TypeError(`font ${address.pathname}: ${response.status}`)
  return new Uint8Array(await response.arrayBuffer())
}
