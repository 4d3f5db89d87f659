import { setImmediate as nextTurn } from 'node:timers/promises'

/** So many items at a time, so that edits and their answers come in between. */
export async function inChunks<From, To>(
  items: readonly From[],
  size: number,
  compute: (item: From) => To,
): Promise<readonly To[]> {
  const computed: To[] = []
  for (const [index, item] of items.entries()) {
    if (index > 0 && index % size === 0) await nextTurn()
    computed.push(compute(item))
  }
  return computed
}

type Computed<Parts> = { readonly [Name in keyof Parts]: Parts[Name] extends () => infer Value ? Value : never }

/** Each part in a turn of its own. */
export async function inTurns<Parts extends Readonly<Record<string, () => unknown>>>(
  parts: Parts,
): Promise<Computed<Parts>> {
  const computed: [string, unknown][] = []
  for (const [name, compute] of Object.entries(parts)) {
    computed.push([name, compute()])
    await nextTurn()
  }
  return Object.fromEntries(computed) as Computed<Parts>
}
