import type { Store } from '../store.ts'
import type { Db } from './database.ts'
import { directory } from './directory.ts'
import { people } from './people.ts'
import { updateLog } from './update-log.ts'

export type OperationName = Exclude<keyof Store, 'close'>

/** Store operations as they run inside the database's thread: the same arguments and results without promises. */
export type Synchronous<Name extends OperationName> = {
  [K in Name]: (...args: Parameters<Store[K]>) => Awaited<ReturnType<Store[K]>>
}

export type Operations = Synchronous<OperationName>

export const operationsOn = (db: Db): Operations => ({ ...updateLog(db), ...directory(db), ...people(db) })
