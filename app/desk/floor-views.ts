import type { Thread } from '@/lib/board/edits/floor.ts'

/** The states that one looks at together, then each by itself. */
export const views = ['open', 'raised', 'called', 'answered', 'deferred', 'set-aside'] as const
export type View = (typeof views)[number]

export const isIn = ({ question: { state } }: Thread, view: View): boolean =>
  view === 'open' ? state === 'raised' || state === 'called' : state === view

export const hasTheme = ({ question, folded }: Thread, theme: string | undefined): boolean =>
  theme === undefined || [question, ...folded].some(({ themes }) => themes?.includes(theme))

/** The called one first; within a state threads come by rank. */
export const inOrder = (threads: readonly Thread[]): readonly Thread[] =>
  threads.toSorted((a, b) => Number(b.question.state === 'called') - Number(a.question.state === 'called'))

/** Every theme that a question was filed under, in alphabetical order. */
export const themesOf = (threads: readonly Thread[]): readonly string[] =>
  [
    ...new Set(threads.flatMap(({ question, folded }) => [question, ...folded].flatMap(({ themes = [] }) => themes))),
  ].sort()
