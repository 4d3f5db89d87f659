import { type MessagePort, parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { openDatabase } from '../../server/store/sqlite/database.ts'
import { serveRequests, type ToThread } from '../../server/store/sqlite/serve-requests.ts'

// The store's thread on a disk that takes its time to say that something is written; what is read comes from memory.
if (parentPort === null) throw new TypeError('This file runs in a worker thread of the store.')
const port: MessagePort = parentPort
const { file, writeMs } = z.object({ file: z.string(), writeMs: z.int() }).parse(workerData)
const never = new Int32Array(new SharedArrayBuffer(4))
const writes = (message: ToThread) =>
  message.kind === 'batch' && message.requests.some(({ name }) => name === 'append' || name === 'saveSnapshot')

const slowly = Object.assign(Object.create(port) as MessagePort, {
  on: (name: 'message', hear: (message: ToThread) => void) =>
    port.on(name, (message: ToThread) => {
      if (writes(message)) Atomics.wait(never, 0, 0, writeMs)
      hear(message)
    }),
  postMessage: (message: unknown) => port.postMessage(message),
  close: () => port.close(),
})
serveRequests(slowly, openDatabase(file))
