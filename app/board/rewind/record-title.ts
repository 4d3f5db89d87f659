import type { Messages } from '@/app/messages/for-rewind.ts'
import type { KindName, RecordOf } from '@/lib/board/records.ts'
import { plainText } from '@/lib/board/rich-text.ts'

/** Longer titles are cut: they name a record, they do not show it. */
const titleLength = 90

type Titles = { readonly [K in KindName]?: (record: RecordOf<K>, messages: Messages) => string }

const titles: Titles = {
  tests: ({ ear, condition, performedOn }, { words }) =>
    `${words.ear[ear]}, ${words.condition[condition].toLowerCase()}, ${performedOn}`,
  speechTests: ({ performedOn }) => performedOn,
  annotations: ({ text }) => text,
  steps: ({ title }) => title,
  stepExceptions: ({ reason }) => reason,
  pictures: ({ caption }) => caption,
  notes: ({ body }) => plainText(body).split('\n')[0] ?? '',
  contingencies: ({ plan }) => plan,
  visits: ({ occasion }, { words }) => words.occasion[occasion],
  visitItems: ({ words }) => words,
  questions: ({ text }) => text,
  replies: ({ text }) => text,
  scenarios: ({ title }) => title,
}

/** The words by which people know a record; empty for the kinds that there is one of, or that have none. */
export function recordTitle<K extends KindName>(kind: K, record: RecordOf<K>, messages: Messages): string {
  const title = (titles[kind]?.(record, messages) ?? '').trim()
  return title.length > titleLength ? `${title.slice(0, titleLength - 1)}…` : title
}
