import { askEarly } from '@/app/early-answers.ts'
import { callEarly, syncAddress, syncServer } from './connection/early-call.ts'
import { probeStorageEarly } from './connection/storage-works.ts'
import { openingPaths } from './opening-paths.ts'

/** Ids with other letters are opened as well, only not before the scripts of the board have come. */
const boardPath = /^\/case\/([A-Za-z0-9_-]+)$/

/**
 * Begins what opening a board waits for, while the scripts of the board are on their way: on a slow phone they take longer
 * than the server. @returns the case whose board stands at this address
 */
export function beginEarly(pathname: string): string | undefined {
  const id = boardPath.exec(pathname)?.[1]
  if (id === undefined) return undefined
  askEarly(openingPaths(id))
  probeStorageEarly()
  for (const kind of ['record', 'floor'] as const) callEarly(syncAddress(syncServer(), kind, id))
  return id
}
