/** How long an answer counts as one to a question that is asked now. */
const freshMs = 10_000

const asked = new Map<string, { readonly answer: Promise<Response>; readonly atMs: number }>()

export const likeApi: RequestInit = { credentials: 'same-origin', cache: 'no-store' }

/** Asks before whoever wants the answers has been loaded: on a slow phone the scripts take longer than the answers. */
export function askEarly(paths: readonly string[]): void {
  for (const path of paths) {
    const answer = fetch(path, likeApi)
    answer.catch(() => undefined) // whoever takes it hears of the failure
    asked.set(path, { answer, atMs: performance.now() })
  }
}

/** The answer to what was asked early, for the first who asks; undefined when nobody did, or too long ago. */
export function takeEarly(path: string): Promise<Response> | undefined {
  const early = asked.get(path)
  asked.delete(path)
  return early === undefined || performance.now() - early.atMs > freshMs ? undefined : early.answer
}
