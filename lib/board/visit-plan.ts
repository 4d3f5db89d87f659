import type { Occasion, Visit } from './records/visit.ts'

/** A visit as the usual plan proposes it. */
export interface PlannedVisit {
  readonly occasion: Occasion
  readonly year?: number
  readonly plannedOn: string
}

/** Weeks from the operation to the first fitting, for the wound to heal. Common practice, no source. */
export const weeksToFirstFitting = 6

/** Months from the first fitting. Common practice, no source. */
const monthsAfter = { '1-month': 1, '3-months': 3, '6-months': 6, '12-months': 12 } as const

/**
 * The usual visits after an operation: first fitting, 1, 3, 6 and 12 months after it, then yearly.
 * @param operatedOn calendar day
 * @param firstFittedOn the day of the first fitting once it is known; absent: six weeks after the operation
 * @param lastYear of the yearly visits, 1 for none
 */
export function usualVisits(operatedOn: string, firstFittedOn: string | undefined, lastYear: number): PlannedVisit[] {
  const fitted = firstFittedOn ?? daysLater(operatedOn, weeksToFirstFitting * 7)
  return [
    { occasion: 'first-fitting', plannedOn: fitted },
    ...(Object.keys(monthsAfter) as (keyof typeof monthsAfter)[]).map((occasion) => ({
      occasion,
      plannedOn: monthsLater(fitted, monthsAfter[occasion]),
    })),
    ...Array.from({ length: Math.max(0, lastYear - 1) }, (_, index) => ({
      occasion: 'yearly' as const,
      year: index + 2,
      plannedOn: monthsLater(fitted, 12 * (index + 2)),
    })),
  ]
}

export function daysLater(day: string, days: number): string {
  const date = dateOf(day)
  date.setUTCDate(date.getUTCDate() + days)
  return dayOf(date)
}

/** The same day of a later month; the last day of a month that is shorter. */
export function monthsLater(day: string, months: number): string {
  const from = dateOf(day)
  const date = new Date(Date.UTC(from.getUTCFullYear(), from.getUTCMonth() + months, 1))
  const lastOfMonth = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate()
  date.setUTCDate(Math.min(from.getUTCDate(), lastOfMonth))
  return dayOf(date)
}

const dateOf = (day: string): Date => new Date(`${day}T00:00:00.000Z`)
const dayOf = (date: Date): string => date.toISOString().slice(0, 10)

/** In the order of time: by the day it was held, or else planned; a missed or unplanned one without a day comes last. */
export function inOrderOfTime(visits: readonly Visit[]): readonly Visit[] {
  return [...visits].sort((a, b) => {
    const [dayA, dayB] = [dayOfVisit(a) ?? '9', dayOfVisit(b) ?? '9']
    if (dayA !== dayB) return dayA < dayB ? -1 : 1
    return a.id < b.id ? -1 : 1
  })
}

export const dayOfVisit = ({ held, plannedOn }: Visit): string | undefined => held?.on ?? plannedOn

/** The day of the earliest visit that is still to be held. */
export function nextVisitDue(visits: Iterable<Visit>): string | undefined {
  const days = [...visits].flatMap(({ state, plannedOn }) => (state === 'planned' && plannedOn ? [plannedOn] : []))
  return days.toSorted()[0]
}

export type Dueness = 'later' | 'due' | 'overdue'

/** Days before a planned visit from which on it is called due. Common practice, no source. */
export const dueDaysAhead = 14

/** How a planned day stands to today: due from two weeks before it, overdue from the day after it. */
export function dueness(plannedOn: string, today: string): Dueness {
  if (plannedOn < today) return 'overdue'
  return plannedOn <= daysLater(today, dueDaysAhead) ? 'due' : 'later'
}
