import { readSettings } from '../settings.ts'
import { checkTables } from '../store/check-tables.ts'
import { runCommand } from './command.ts'
import { storePlace } from './store-place.ts'

// The board of the settings, or the one named on the command line: a data folder, a backup or an address.
await runCommand(async () => {
  const [named] = process.argv.slice(2)
  const { databaseUrl, dataDir } = named === undefined ? readSettings(process.env) : { databaseUrl: named, dataDir: '' }
  const place = storePlace(databaseUrl ?? dataDir)
  const reader = await place.read()
  try {
    const problems = await checkTables(reader)
    for (const problem of problems) console.log(problem)
    console.log(problems.length === 0 ? `${place.name} is whole.` : `${problems.length} found in ${place.name}.`)
    process.exitCode = problems.length === 0 ? 0 : 1
  } finally {
    await reader.close()
  }
})
