import { askApi } from '@/app/api-client.ts'
import { parseDocumentName } from '@/lib/board/documents.ts'
import { CasesHeld } from '@/lib/interchange/api.ts'

/** What this browser keeps of cases: `promontory.<document>.<participant>`, and texts under names that hold the case. */
const copyName = /^promontory\.((?:record|floor)\.[A-Za-z0-9-]+)\./

/** Drops everything that this browser keeps of a case: copies of its documents, drafts, unfinished texts. */
export async function forgetCase(caseId: string): Promise<void> {
  for (const name of await copiesHere()) if (caseOfCopy(name) === caseId) await dropCopy(name)
  for (const storage of [localStorage, sessionStorage])
    for (const key of Object.keys(storage)) if (key.split(/[.:]/).includes(caseId)) storage.removeItem(key)
}

/** Asks the server which of the cases that this browser keeps were erased, and drops those. */
export async function forgetErasedCases(): Promise<void> {
  const held = [...new Set((await copiesHere()).map(caseOfCopy))].filter((id) => id !== undefined)
  if (held.length === 0) return
  const { cases } = await askApi('/api/erasures/among', CasesHeld, {
    method: 'POST',
    body: { cases: held.slice(0, 500) },
  })
  for (const id of cases) await forgetCase(id)
}

/** Names of the copies of documents that this browser keeps, whoever's they are. */
export async function copiesHere(): Promise<string[]> {
  // A browser that keeps nothing, or does not tell what it keeps, has nothing to drop here.
  const databases = await indexedDB.databases().catch(() => [])
  return databases.flatMap(({ name }) => (name !== undefined && copyName.test(name) ? [name] : []))
}

export const caseOfCopy = (name: string): string | undefined =>
  parseDocumentName(copyName.exec(name)?.[1] ?? '')?.caseId

/** Where another window has it open, it goes when that window lets go. @returns whether it is gone */
export function dropCopy(name: string): Promise<boolean> {
  return new Promise((resolve) => {
    const request = indexedDB.deleteDatabase(name)
    request.onsuccess = () => resolve(true)
    request.onerror = () => resolve(false)
    request.onblocked = () => resolve(false)
  })
}
