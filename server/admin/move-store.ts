import { parseArgs } from 'node:util'
import { CannotStart } from '../cannot-start.ts'
import { copyTables, differing, digestTables, filled, type TableDigest } from '../store/move-tables.ts'
import { runCommand } from './command.ts'
import { type StorePlace, storePlace } from './store-place.ts'

const usage =
  'Usage: npm run store:move -- --from <data folder or postgres://...> --to <data folder or postgres://...>, with the servers stopped'

await runCommand(async () => {
  const { from, to } = readArguments()
  const source = await from.read()
  await refuseUnlessEmpty(to)
  const before = await digestTables(source)
  const target = await to.write()
  try {
    await copyTables(source, target)
  } finally {
    await Promise.all([source.close(), target.close()])
  }
  // Both read anew: what counts is what stands there, and that nobody wrote meanwhile.
  const [left, arrived] = [await digestOf(from), await digestOf(to)]
  const changed = differing(before, left)
  if (changed.length > 0)
    throw new CannotStart(`Somebody wrote to ${from.name} meanwhile (${changed}). Stop the servers.`)
  const wrong = differing(left, arrived)
  if (wrong.length > 0) throw new CannotStart(`Not the same after copying: ${wrong}. Empty ${to.name} and try again.`)
  for (const { table, rows, hash } of arrived) console.log(`${table.padEnd(16)} ${String(rows).padStart(8)}  ${hash}`)
  console.log(`Moved from ${from.name} to ${to.name}; counts and hashes are equal. The signing key is copied by hand.`)
})

function readArguments(): { from: StorePlace; to: StorePlace } {
  const { from, to } = named()
  if (from === undefined || to === undefined) throw new CannotStart(usage)
  return { from: storePlace(from), to: storePlace(to) }
}

function named(): { from?: string | undefined; to?: string | undefined } {
  try {
    return parseArgs({ options: { from: { type: 'string' }, to: { type: 'string' } } }).values
  } catch (cause) {
    throw new CannotStart(usage, { cause })
  }
}

async function digestOf(place: StorePlace): Promise<TableDigest[]> {
  const reader = await place.read()
  try {
    return await digestTables(reader)
  } finally {
    await reader.close()
  }
}

async function refuseUnlessEmpty(to: StorePlace): Promise<void> {
  await (await to.write()).close()
  const full = filled(await digestOf(to))
  if (full.length > 0) throw new CannotStart(`${to.name} is not empty (${full}); give another place.`)
}
