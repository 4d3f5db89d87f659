import { Worker } from 'node:worker_threads'
import { startSourceThread } from './source-thread.ts'
import type { OperationName, Operations } from './sqlite/operations.ts'
import { StoreThread } from './sqlite/store-thread.ts'
import type { Store } from './store.ts'

/**
 * Opens the store in a SQLite file, with the database in a thread of its own: the event loop never waits for the disk.
 * @throws StoreOutage when the file cannot be opened or written, or has a newer schema
 */
export async function openSqliteStore(file: string, startWorker = startStoreThread): Promise<Store> {
  const thread = new StoreThread(() => startWorker(file))
  await thread.start()
  return storeOver(thread)
}

function storeOver(thread: StoreThread): Store {
  const call =
    <Name extends OperationName>(name: Name) =>
    (...args: Parameters<Operations[Name]>): Promise<ReturnType<Operations[Name]>> =>
      thread.ask(name, args)
  return {
    append: (entries, afterSeq) =>
      thread.ask('append', [entries.map((entry) => ({ ...entry, update: compact(entry.update) })), afterSeq]),
    load: call('load'),
    log: call('log'),
    saveSnapshot: (document, { seq, state }) => thread.ask('saveSnapshot', [document, { seq, state: compact(state) }]),
    loadAt: call('loadAt'),
    timeline: call('timeline'),
    createProgramme: call('createProgramme'),
    listProgrammes: call('listProgrammes'),
    bringOn: call('bringOn'),
    orderCases: call('orderCases'),
    saveSlot: call('saveSlot'),
    createCase: call('createCase'),
    findCase: call('findCase'),
    listCases: call('listCases'),
    saveProjection: call('saveProjection'),
    eraseCase: call('eraseCase'),
    listErasures: call('listErasures'),
    listAuthors: call('listAuthors'),
    castBallot: call('castBallot'),
    listBallots: call('listBallots'),
    closeBallots: call('closeBallots'),
    keptStates: call('keptStates'),
    recordWithdrawal: call('recordWithdrawal'),
    finishWithdrawal: (id, { updates, states, seen }) =>
      thread.ask('finishWithdrawal', [
        id,
        {
          updates: updates.map(({ seq, update }) => ({ seq, update: compact(update) })),
          states: states.map(({ seq, state }) => ({ seq, state: compact(state) })),
          seen,
        },
      ]),
    openWithdrawals: call('openWithdrawals'),
    listWithdrawals: call('listWithdrawals'),
    addUnnamed: call('addUnnamed'),
    listUnnamed: call('listUnnamed'),
    savePicture: (caseId, id, { mediaType, bytes }) =>
      thread.ask('savePicture', [caseId, id, { mediaType, bytes: compact(bytes) }]),
    picture: call('picture'),
    dropPicture: call('dropPicture'),
    withdrawnPicture: call('withdrawnPicture'),
    saveOutcome: call('saveOutcome'),
    outcomesSince: call('outcomesSince'),
    casesWithoutOutcome: call('casesWithoutOutcome'),
    createInvitation: call('createInvitation'),
    findInvitation: call('findInvitation'),
    listInvitations: call('listInvitations'),
    revokeInvitation: call('revokeInvitation'),
    join: call('join'),
    createParticipant: call('createParticipant'),
    findParticipant: call('findParticipant'),
    listGrants: call('listGrants'),
    listGrantsCovering: call('listGrantsCovering'),
    countOwners: call('countOwners'),
    findSession: call('findSession'),
    touchSession: call('touchSession'),
    endSession: call('endSession'),
    tryWriting: call('tryWriting'),
    close: () => thread.close(),
  }
}

/** A view posted to another thread takes its whole buffer along, such as a socket's chunk of 64 KiB for 30 bytes. */
const compact = (bytes: Uint8Array): Uint8Array =>
  bytes.byteLength === bytes.buffer.byteLength ? bytes : new Uint8Array(bytes)

/** The bundle stands beside the bundled thread; the source beside its source. */
function startStoreThread(file: string): Worker {
  if (import.meta.url.endsWith('.ts'))
    return startSourceThread(new URL('./sqlite/worker.ts', import.meta.url), { file })
  return new Worker(new URL('./sqlite-worker.mjs', import.meta.url), { workerData: { file } })
}
