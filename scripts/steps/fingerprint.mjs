import { createHash } from 'node:crypto'
import { readdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { root } from './run.mjs'

/** A hash of the names and contents of files and folders of the project; what does not exist counts as empty. */
export async function fingerprint(paths) {
  const hash = createHash('sha256')
  for (const file of (await Promise.all(paths.map(filesUnder))).flat().sort()) {
    hash
      .update(`${file}\0`)
      .update(await readFile(join(root, file)))
      .update('\0')
  }
  return hash.digest('hex')
}

async function filesUnder(path) {
  const found = await stat(join(root, path)).catch(() => undefined)
  if (found === undefined) return []
  if (!found.isDirectory()) return [path]
  const entries = await readdir(join(root, path))
  return (await Promise.all(entries.map((entry) => filesUnder(join(path, entry))))).flat()
}
