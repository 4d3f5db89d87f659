import type { Store } from '../store.ts'
import { ballots } from './ballots.ts'
import { type Db, writeVersionAgain } from './database.ts'
import { directory } from './directory.ts'
import { erasures } from './erasures.ts'
import { outcomes } from './outcomes.ts'
import { people } from './people.ts'
import { pictures } from './pictures.ts'
import { unnamed } from './unnamed.ts'
import { updateLog } from './update-log.ts'
import { withdrawals } from './withdrawals.ts'

export type OperationName = Exclude<keyof Store, 'close'>

/** Store operations as they run inside the database's thread: the same arguments and results without promises. */
export type Synchronous<Name extends OperationName> = {
  [K in Name]: (...args: Parameters<Store[K]>) => Awaited<ReturnType<Store[K]>>
}

export type Operations = Synchronous<OperationName>

export const operationsOn = (db: Db): Operations => ({
  ...updateLog(db),
  ...directory(db),
  ...erasures(db),
  ...ballots(db),
  ...withdrawals(db),
  ...people(db),
  ...unnamed(db),
  ...outcomes(db),
  ...pictures(db),
  tryWriting: () => writeVersionAgain(db),
})
