/** Facts beside an event: ids and numbers, never what people wrote about a patient. */
export type Facts = Readonly<Record<string, string | number | boolean>>

export interface Log {
  info(event: string, facts?: Facts): void
  error(event: string, error: unknown, facts?: Facts): void
}

/** One line of JSON an event. */
export function createLog(write: (line: string) => void, now: () => Date): Log {
  const line = (level: string, event: string, facts: Facts) =>
    write(`${JSON.stringify({ at: now().toISOString(), level, event, ...facts })}\n`)
  return {
    info: (event, facts = {}) => line('info', event, facts),
    error: (event, error, facts = {}) => line('error', event, { ...facts, reason: reasonOf(error) }),
  }
}

function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error)
  return error.stack ?? `${error.name}: ${error.message}`
}
