/** How long something stays open, in the words of a form. */
export const spans = ['day', 'week', 'month', 'year', 'unlimited'] as const
export type Span = (typeof spans)[number]

const days: Record<Exclude<Span, 'unlimited'>, number> = { day: 1, week: 7, month: 30, year: 365 }

/** @returns the end of the span as an ISO 8601 instant, or null when it has none */
export const endOf = (span: Span, fromMs: number): string | null =>
  span === 'unlimited' ? null : new Date(fromMs + days[span] * 24 * 3_600_000).toISOString()
