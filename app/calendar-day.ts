/** The day on the reader's own calendar, ISO 8601: what a test of today is dated, also while UTC has another day. */
export function calendarDayHere(now: Date): string {
  const two = (number: number) => String(number).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}
