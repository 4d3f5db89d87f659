import type { Worker } from 'node:worker_threads'
import { StoreBehind, StoreConflict, StoreOutage } from '../store.ts'
import type { OperationName, Operations } from './operations.ts'
import type { Answer, FromThread, Request, ToThread } from './serve-requests.ts'

/** Requests committed together at most: bounds how long the first of a flood waits for its answer. */
const batchLimit = 512

interface Waiting {
  readonly request: Request
  readonly resolve: (value: unknown) => void
  readonly reject: (error: Error) => void
}

/**
 * The queue before the database's thread: what is asked within one turn, or while a commit is under way, is committed
 * together. A thread that dies rejects what it had not answered and is started again by the next request, so that one
 * crash needs no restart of the server.
 */
export class StoreThread {
  readonly #startWorker: () => Worker
  #worker: Worker | undefined
  #queued: Waiting[] = []
  #inFlight: Waiting[] = []
  #flushPlanned = false
  #closed = false

  constructor(startWorker: () => Worker) {
    this.#startWorker = startWorker
  }

  /** Resolves when the thread has opened its file. */
  start(): Promise<void> {
    const worker = this.#launch()
    return new Promise((resolve, reject) => {
      worker.once('message', () => resolve())
      worker.once('error', (cause) => reject(outage('The store could not be opened', cause)))
    })
  }

  ask<Name extends OperationName>(
    name: Name,
    args: Parameters<Operations[Name]>,
  ): Promise<ReturnType<Operations[Name]>> {
    if (this.#closed) return Promise.reject(new StoreOutage('The store is closed.'))
    return new Promise((resolve, reject) => {
      // The thread answers a request with the result of the operation of that name: what the two casts say.
      const request = { name, args } as Request
      this.#queued.push({ request, resolve: resolve as (value: unknown) => void, reject })
      this.#planFlush()
    })
  }

  /** Waits for what was asked, then ends the thread. */
  async close(): Promise<void> {
    this.#closed = true
    while (this.#queued.length > 0) this.#flush()
    const worker = this.#worker
    if (worker === undefined) return
    const exited = new Promise((resolve) => worker.once('exit', resolve))
    post(worker, { kind: 'stop' })
    await exited
  }

  #planFlush(): void {
    if (this.#flushPlanned || this.#inFlight.length > 0) return
    this.#flushPlanned = true
    setImmediate(() => {
      this.#flushPlanned = false
      if (this.#queued.length > 0) this.#flush()
    })
  }

  #flush(): void {
    const batch = this.#queued.splice(0, batchLimit)
    this.#inFlight.push(...batch)
    post(this.#worker ?? this.#launch(), { kind: 'batch', requests: batch.map(({ request }) => request) })
  }

  #launch(): Worker {
    const worker = this.#startWorker()
    let failure: unknown
    worker.on('message', (message: FromThread) => this.#receive(message))
    worker.on('error', (error) => {
      failure = error
    })
    worker.on('exit', (code) => this.#lose(worker, failure ?? new Error(`The store's thread ended with code ${code}.`)))
    this.#worker = worker
    return worker
  }

  #receive(message: FromThread): void {
    if (message.kind === 'ready') return
    const answered = this.#inFlight.splice(0, message.answers.length)
    for (const [index, { resolve, reject }] of answered.entries()) settle(message.answers[index], resolve, reject)
    if (this.#queued.length > 0) this.#planFlush()
  }

  #lose(worker: Worker, cause: unknown): void {
    if (this.#worker !== worker) return
    this.#worker = undefined
    const lost = this.#inFlight.splice(0)
    for (const { reject } of lost) reject(outage('The store failed while it was writing', cause))
    if (this.#queued.length > 0) this.#planFlush()
  }
}

function settle(answer: Answer | undefined, resolve: (value: unknown) => void, reject: (error: Error) => void): void {
  if (answer === undefined) reject(new StoreOutage('The store left a request unanswered.'))
  else if (answer.kind === 'done') resolve(answer.value)
  else if (answer.kind === 'conflict') reject(new StoreConflict(answer.message))
  else if (answer.kind === 'behind') reject(new StoreBehind(answer.message))
  else reject(outage('The store failed', new Error(answer.message)))
}

function outage(what: string, cause: unknown): StoreOutage {
  const why = cause instanceof Error ? cause.message : String(cause)
  return new StoreOutage(`${what}: ${why}`, { cause })
}

const post = (worker: Worker, message: ToThread): void => worker.postMessage(message)
