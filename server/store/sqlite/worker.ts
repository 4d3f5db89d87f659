import { parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { openDatabase } from './database.ts'
import { serveRequests } from './serve-requests.ts'

if (parentPort === null) throw new TypeError('This file runs in a worker thread of the store.')
const { file } = z.object({ file: z.string() }).parse(workerData)
serveRequests(parentPort, openDatabase(file))
