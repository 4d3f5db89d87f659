import { parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { openDatabase } from '../../server/store/sqlite/database.ts'
import { serveRequests } from '../../server/store/sqlite/serve-requests.ts'

// The store's thread on a disk that is nearly full: SQLite answers SQLITE_FULL when the file would need more pages.
if (parentPort === null) throw new TypeError('This file runs in a worker thread of the store.')
const { file, pages } = z.object({ file: z.string(), pages: z.int() }).parse(workerData)
const db = openDatabase(file)
db.pragma(`max_page_count = ${pages}`)
serveRequests(parentPort, db)
