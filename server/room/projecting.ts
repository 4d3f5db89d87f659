import type { CaseProjection } from '../../lib/interchange/api.ts'
import type { CaseOutcome } from '../../lib/interchange/outcome-columns.ts'
import { type Store, StoreConflict } from '../store/store.ts'
import { limits } from './limits.ts'
import { projectOutcome } from './outcome-projection.ts'
import { projectFloor, projectRecord } from './projection.ts'
import type { Room } from './room.ts'

interface ProjectingParts {
  readonly store: Pick<Store, 'findCase' | 'saveProjection' | 'saveOutcome'>
  /** Every room, as soon as it is open. */
  opened(): AsyncIterable<Room>
  failed(caseId: string, error: unknown): void
}

/** A case whose documents changed, until its columns are written. */
interface Work {
  isDone: Promise<void>
  /** it changed once more after the writing had begun */
  isStale: boolean
}

/** Writes the columns of a case, by which lists and the series find it, some time after its documents changed. */
export class Projecting {
  private readonly parts: ProjectingParts
  private readonly underWay = new Map<string, Work>()

  constructor(parts: ProjectingParts) {
    this.parts = parts
  }

  /** One write at a time a case. What changes before it begins is in it; what changes later is in one more. */
  changed({ caseId }: Room): void {
    const known = this.underWay.get(caseId)
    if (known !== undefined) known.isStale = true
    else {
      const work: Work = { isDone: Promise.resolve(), isStale: true }
      this.underWay.set(caseId, work)
      work.isDone = this.finish(caseId, work)
    }
  }

  /** Resolves when what was to be written is. */
  async settled(): Promise<void> {
    await Promise.all([...this.underWay.values()].map(({ isDone }) => isDone))
  }

  private async finish(caseId: string, work: Work): Promise<void> {
    while (work.isStale) {
      await new Promise((resolve) => setTimeout(resolve, limits.rosterTickMs / 4))
      work.isStale = false
      await this.write(caseId).catch((error: unknown) => this.parts.failed(caseId, error))
    }
    this.underWay.delete(caseId)
  }

  private async write(caseId: string): Promise<void> {
    const { store } = this.parts
    const stored = await store.findCase(caseId)
    if (stored === null) return
    let projection: CaseProjection = stored
    let outcome: CaseOutcome | undefined
    for await (const room of this.parts.opened()) {
      if (room.caseId !== caseId) continue
      projection = { ...projection, ...(room.kind === 'record' ? projectRecord : projectFloor)(room.tables) }
      if (room.kind === 'record') outcome = projectOutcome(room.tables)
    }
    try {
      await store.saveProjection(caseId, { ...projection, updatedAt: new Date().toISOString() })
      if (outcome !== undefined) await store.saveOutcome(caseId, outcome)
    } catch (error) {
      if (!(error instanceof StoreConflict)) throw error // erased meanwhile: there is nothing to keep
    }
  }
}
