import type { MessagePort } from 'node:worker_threads'
import { StoreBehind, StoreConflict } from '../store.ts'
import type { Db } from './database.ts'
import { type OperationName, type Operations, operationsOn } from './operations.ts'

export type Request = {
  [Name in OperationName]: { readonly name: Name; readonly args: Parameters<Operations[Name]> }
}[OperationName]

export type Answer =
  | { readonly kind: 'done'; readonly value: unknown }
  | { readonly kind: 'conflict' | 'behind'; readonly message: string }
  | { readonly kind: 'outage'; readonly message: string }

/** What the thread is sent: a batch of requests to commit together, or the order to stop. */
export type ToThread = { readonly kind: 'batch'; readonly requests: readonly Request[] } | { readonly kind: 'stop' }

export type FromThread = { readonly kind: 'ready' } | { readonly kind: 'answers'; readonly answers: readonly Answer[] }

/** Answers batches until told to stop. Each batch is one transaction, and is answered after its commit. */
export function serveRequests(port: MessagePort, db: Db): void {
  const answerBatch = batchesOn(db)
  const send = (message: FromThread) => port.postMessage(message)
  port.on('message', (message: ToThread) => {
    if (message.kind === 'batch') {
      send({ kind: 'answers', answers: answerBatch(message.requests) })
      return
    }
    db.close()
    port.close()
  })
  send({ kind: 'ready' })
}

/**
 * Runs a batch in one transaction, each request in a savepoint of its own: a conflict undoes only the request that
 * caused it; any other failure undoes the batch, because what follows a failed write cannot be trusted.
 */
export function batchesOn(db: Db): (requests: readonly Request[]) => readonly Answer[] {
  const operations = operationsOn(db)
  const one = db.transaction((request: Request): unknown => {
    const operation = operations[request.name] as (...args: Request['args']) => unknown
    return operation(...request.args)
  })
  const all = db.transaction((requests: readonly Request[]): readonly Answer[] =>
    requests.map((request): Answer => {
      try {
        return { kind: 'done', value: one(request) }
      } catch (error) {
        if (error instanceof StoreBehind) return { kind: 'behind', message: error.message }
        if (!isConflict(error)) throw error
        return { kind: 'conflict', message: error.message }
      }
    }),
  )
  return (requests) => {
    try {
      const answers = all.immediate(requests)
      // What was erased or withdrawn stands in the write-ahead log until that begins anew.
      if (requests.some(({ name }) => emptying.includes(name))) db.pragma('wal_checkpoint(TRUNCATE)')
      return answers
    } catch (error) {
      const answer: Answer = { kind: 'outage', message: error instanceof Error ? error.message : String(error) }
      return requests.map(() => answer)
    }
  }
}

/** Requests after which bytes are to be nowhere in the files. */
const emptying: readonly OperationName[] = ['eraseCase', 'finishWithdrawal', 'dropPicture']

function isConflict(error: unknown): error is Error {
  if (error instanceof StoreConflict) return true
  return error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_CONSTRAINT')
}
