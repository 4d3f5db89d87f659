import * as z from 'zod/mini'
import { caseOfCopy, copiesHere, dropCopy } from '@/app/exchange/forget-case.ts'

/** What of anybody's work this browser keeps. */
export interface KeptHere {
  readonly cases: number
  /** changes that no server has called stored */
  readonly unstored: number
  readonly drafts: number
}

const unstoredKey = /^promontory\.unstored\./
const draftsKey = /^promontory\.drafts\./
/** Texts in the making, journals, drafts: everything but the choice of language and theme, which says nothing of a case. */
const ours = /^(promontory\.|text:)/

export async function keptHere(): Promise<KeptHere> {
  const cases = new Set((await copiesHere()).map(caseOfCopy))
  return { cases: cases.size, unstored: entriesUnder(unstoredKey), drafts: entriesUnder(draftsKey) }
}

/** @returns whether all is gone; otherwise another window has a copy open, which goes when that window closes */
export async function forgetEverything(): Promise<boolean> {
  for (const storage of storages()) for (const key of Object.keys(storage)) if (ours.test(key)) storage.removeItem(key)
  const gone = await Promise.all((await copiesHere()).map(dropCopy))
  return gone.every(Boolean)
}

/** A browser that denies storage keeps nothing. */
function storages(): readonly Storage[] {
  try {
    return [localStorage, sessionStorage]
  } catch {
    return []
  }
}

const entriesUnder = (name: RegExp): number =>
  storages()
    .flatMap((storage) => Object.entries<string>(storage))
    .filter(([key]) => name.test(key))
    .reduce((sum, [, text]) => sum + lengthOf(text), 0)

function lengthOf(text: string): number {
  try {
    const entries = z.array(z.unknown()).safeParse(JSON.parse(text))
    return entries.success ? entries.data.length : 0
  } catch {
    return 0
  }
}
