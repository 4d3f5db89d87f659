import { seriesPart } from '@/app/messages/parts/series.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { SeriesPage } from './series-page.tsx'

export const generateMetadata = titleFrom(seriesPart, ({ series }) => series.pageTitle)

type Given = Readonly<Record<string, string | readonly string[] | undefined>>

export default async function Series({ searchParams }: { searchParams: Promise<Given> }) {
  return <SeriesPage query={queryOf(await searchParams)} />
}

function queryOf(given: Given): string {
  const query = new URLSearchParams()
  for (const [field, values = []] of Object.entries(given))
    for (const value of [values].flat()) query.append(field, String(value))
  return query.toString()
}
