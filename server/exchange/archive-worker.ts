import { parentPort, workerData } from 'node:worker_threads'
import { type ArchiveJob, doArchiveJob } from './archive-job.ts'

if (parentPort === null) throw new TypeError('This file runs in a worker thread of the exchange.')
parentPort.postMessage(doArchiveJob((workerData as { job: ArchiveJob }).job))
