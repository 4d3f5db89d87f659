import { join } from 'node:path'

/** The files of a data folder. A backup takes the whole folder; README.md says how. */
export const dataFiles = (dataDir: string) => ({
  store: join(dataDir, 'promontory.db'),
  key: join(dataDir, 'signing.key'),
  lock: join(dataDir, 'server.lock'),
})
