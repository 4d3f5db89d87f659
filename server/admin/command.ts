import { CannotStart } from '../cannot-start.ts'
import { StoreOutage } from '../store/store.ts'

/** Runs a command: what it cannot do is told in one line, and anything unexpected with all that is known. */
export async function runCommand(work: () => Promise<void>): Promise<void> {
  try {
    await work()
  } catch (error) {
    if (!(error instanceof CannotStart || error instanceof StoreOutage)) throw error
    console.error(error.message)
    process.exitCode = 1
  }
}
