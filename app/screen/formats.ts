export interface DurationWords {
  minutes(minutes: number): string
  hoursMinutes(hours: number, minutes: number): string
}

/** Whole minutes between two moments; a clock that runs behind the writer's shows 0, never a negative time. */
export function elapsed(from: string, to: Date, words: DurationWords): string {
  const minutes = Math.max(0, Math.floor((to.getTime() - Date.parse(from)) / 60_000))
  return minutes < 60 ? words.minutes(minutes) : words.hoursMinutes(Math.floor(minutes / 60), minutes % 60)
}

/** Hertz below 1 kHz, kilohertz from there on. */
export function frequencyOf(hz: number, language: string): string {
  return hz < 1000
    ? `${new Intl.NumberFormat(language).format(hz)} Hz`
    : `${new Intl.NumberFormat(language, { maximumFractionDigits: 2 }).format(hz / 1000)} kHz`
}
