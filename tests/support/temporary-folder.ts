import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** An empty folder of its own for one test. */
export const makeTemporaryFolder = (): Promise<string> => mkdtemp(join(tmpdir(), 'promontory-'))

export const removeFolder = (folder: string): Promise<void> => rm(folder, { recursive: true, force: true })
