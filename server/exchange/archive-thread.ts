import { Worker } from 'node:worker_threads'
import { startSourceThread } from '../store/source-thread.ts'
import type { ArchiveJob, ArchiveOutcome } from './archive-job.ts'

/** Memory of one job: the largest archive that is admitted, unpacked, parsed and replayed, with room to spare. */
const heapMb = 1024
/** Archives that are worked on at the same time; others wait their turn. */
const atOnce = 1

/** Does jobs on archives one after the other, each in a thread of its own that is gone afterwards. */
export class ArchiveThreads {
  private readonly waiting: (() => void)[] = []
  private running = 0

  /**
   * @param gather makes the job when its turn has come: a case with its photographs is up to a hundred megabytes
   * @throws Error when the thread dies, of too little memory for example
   */
  async run(gather: () => ArchiveJob | Promise<ArchiveJob>): Promise<ArchiveOutcome> {
    await this.turn()
    try {
      return await runOne(await gather())
    } finally {
      this.running -= 1
      this.waiting.shift()?.()
    }
  }

  private async turn(): Promise<void> {
    while (this.running >= atOnce) await new Promise<void>((resolve) => this.waiting.push(resolve))
    this.running += 1
  }
}

function runOne(job: ArchiveJob): Promise<ArchiveOutcome> {
  return new Promise((resolve, reject) => {
    const worker = startThread(job)
    worker.once('message', (outcome: ArchiveOutcome) => {
      resolve(outcome)
      void worker.terminate()
    })
    worker.once('error', reject)
    worker.once('exit', (code) => reject(new Error(`The thread of an archive ended with ${code}.`)))
  })
}

/** The bundle stands beside the bundled server; the source beside its source. */
function startThread(job: ArchiveJob): Worker {
  const resourceLimits = { maxOldGenerationSizeMb: heapMb }
  if (import.meta.url.endsWith('.ts'))
    return startSourceThread(new URL('./archive-worker.ts', import.meta.url), { job }, resourceLimits)
  return new Worker(new URL('./archive-worker.mjs', import.meta.url), { workerData: { job }, resourceLimits })
}
