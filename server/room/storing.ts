import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Refusal } from '../../lib/board/refusals.ts'
import type { Change } from '../../lib/board/rules.ts'
import { marksOf } from '../../lib/board/session-marks.ts'
import type { Proposal } from '../guard/proposal.ts'
import type { Meter } from '../metrics/meter.ts'
import { type LoggedUpdate, type Store, StoreBehind, StoreOutage, type UpdateEntry } from '../store/store.ts'
import type { Edit, JudgedEdit, OwnEdit, Pending, SentEdit } from './edit.ts'
import { limits } from './limits.ts'

/** Whether a refusal may still be of what is not known here yet; `again` is what has passed once, and was counted then. */
type Time = 'first' | 'again' | 'last'

export interface StoringParts {
  readonly document: string
  readonly store: Store
  readonly proposal: Proposal
  readonly owners: Map<number, ParticipantId>
  /** Whether other processes may write to the same log. */
  readonly othersWrite: boolean
  /** The stored document as one update: what the proposal is rebuilt from. */
  state(): Uint8Array
  /** These are stored, up to this number. */
  stored(batch: readonly Pending[], seq: number): void
  /** Other processes stored these. */
  followed(updates: readonly LoggedUpdate[]): void
  /** The reason against an edit whose author writes too often; otherwise it counts. */
  tooOften(edit: JudgedEdit, changes: readonly Change[]): Refusal | undefined
  /** Learns what the guard has to know before it judges on top of what other processes stored. */
  beforeFollowing(): Promise<void>
  failed(error: unknown): void
  /** The guard, or the pace, was against an edit of somebody who asked without their name. */
  refusedUnnamed(code: string): void
  readonly meter: Meter
}

/**
 * The way of a document's edits from the guard into the log. Other processes may write to the same log: each append names
 * the number that it was judged on (S9), so one goes out at a time, and what comes meanwhile goes together in the next. One
 * that finds the log ahead reads what is missing, judges everything that waits once more on top of it, and tries again.
 * An edit that may not stand on what is known here may stand on what another process has stored and shown since: it is
 * refused only after a look into the log.
 */
export class Storing {
  private readonly parts: StoringParts
  private waiting: Pending[] = []
  private inFlight: Pending[] = []
  /** What the guard is against until the log has been read, and what its senders sent after it: frames are confirmed in order. */
  private doubted: JudgedEdit[] = []
  private seq: number
  private mustRead = false
  /** the last append found the log ahead */
  private wasBehind = false
  private expectsMore = false
  private followedMs = Number.NEGATIVE_INFINITY
  private running: Promise<void> | undefined
  private closed = false

  constructor(parts: StoringParts, seq: number) {
    this.parts = parts
    this.seq = seq
  }

  /** Judges an edit; one that may stand is stored in its turn. */
  take(edit: Edit): void {
    if (this.followsDoubted(edit)) return this.doubt(edit)
    const judged = this.judge(edit, this.parts.othersWrite ? 'first' : 'last')
    if (judged === undefined) return
    if (judged.empty && this.isIdle) return confirm(judged)
    this.waiting.push(judged)
    this.start()
  }

  /** Another process says that the log reaches so far. */
  heard(seq: number): void {
    if (seq <= this.seq) return
    this.mustRead = true
    this.start()
  }

  /** Looks into the log for what others wrote; resolves when it is taken over, or the store has failed. */
  async catchUp(): Promise<void> {
    this.mustRead = true
    this.start()
    await this.settled()
  }

  /** Resolves when everything that was taken so far is stored, or the store has failed. */
  async settled(): Promise<void> {
    while (this.running !== undefined) await this.running
  }

  get isIdle(): boolean {
    return this.waiting.length === 0 && this.inFlight.length === 0 && this.doubted.length === 0
  }

  /** Nothing is taken any more, and whoever waits for an edit of the server's own hears that it failed. */
  close(): void {
    this.closed = true
    for (const edit of [...this.underWay().map(({ edit }) => edit), ...this.doubted])
      if (edit.kind !== 'sent') edit.failed(new StoreOutage('The edit was not stored.'))
    this.waiting = []
    this.inFlight = []
    this.doubted = []
  }

  private start(): void {
    if (this.running !== undefined || this.closed) return
    this.running = this.run()
      .catch((error: unknown) => {
        if (!this.closed) this.parts.failed(error)
      })
      .finally(() => {
        this.running = undefined
        // What came between the last look and now.
        if (this.mustRead || this.waiting.length > 0) this.start()
      })
  }

  private async run(): Promise<void> {
    while (!this.closed)
      if (this.mustRead) await this.read()
      else if (this.waiting.length > 0) await this.append()
      else return
  }

  private async append(): Promise<void> {
    await this.turn()
    if (this.closed || this.mustRead) return
    const batch = this.waiting.splice(0, limits.editsAtOnce)
    this.inFlight = batch
    const entries = batch.filter(({ empty }) => !empty).map((pending) => this.toEntry(pending))
    const startedMs = performance.now()
    try {
      const seqs = entries.length === 0 ? [] : await this.parts.store.append(entries, this.seq)
      if (entries.length > 0) this.parts.meter.stored(entries.length, (performance.now() - startedMs) / 1000)
      if (this.closed) return
      this.inFlight = []
      this.seq = seqs.at(-1) ?? this.seq
      this.parts.stored(batch, this.seq)
      for (const { edit } of batch) if (edit.kind !== 'sent') edit.stored()
    } catch (error) {
      if (!(error instanceof StoreBehind)) throw error
      this.inFlight = []
      this.waiting.unshift(...batch)
      this.mustRead = true
      this.expectsMore = true
      this.wasBehind = true
    }
  }

  /**
   * What comes in the same turn goes together. Where others are writing too, whoever came through last waits a little, or a
   * busy process would keep a slower one behind for ever.
   */
  private turn(): Promise<void> {
    const others = performance.now() - this.followedMs < limits.othersWritingMs
    const givesWay = others && !this.wasBehind
    this.wasBehind = false
    return new Promise((resolve) => (givesWay ? setTimeout(resolve, limits.giveWayMs) : setImmediate(resolve)))
  }

  private async read(): Promise<void> {
    this.mustRead = false
    const { seq: from, expectsMore } = this
    const doubted = this.doubted.length
    this.expectsMore = false
    const updates = await this.missing()
    if (updates.length > 0) await this.parts.beforeFollowing()
    if (this.closed) return
    // All of it at once: what waits here may stand only on the last of what others stored.
    if (updates.length > 0) this.follow(updates)
    // Behind a log that holds nothing more: what this room stands on is not there any more.
    if (expectsMore && this.seq === from) throw new StoreOutage('The log is shorter than it was.')
    this.judgeDoubted(doubted)
  }

  /** What the log holds beyond what is known here. */
  private async missing(): Promise<readonly LoggedUpdate[]> {
    const found: LoggedUpdate[] = []
    for (;;) {
      const after = found.at(-1)?.seq ?? this.seq
      const page = await this.parts.store.log(this.parts.document, after, limits.readAtOnce)
      found.push(...page)
      if (page.length < limits.readAtOnce || this.closed) return found
    }
  }

  private followsDoubted(edit: Edit): edit is SentEdit {
    return edit.kind === 'sent' && this.doubted.some((other) => other.kind === 'sent' && other.session === edit.session)
  }

  private doubt(edit: JudgedEdit): void {
    this.doubted.push(edit)
    this.mustRead = true
    this.start()
  }

  /** Those that were there before the log was read; what stands behind them came later and waits for the next look. */
  private judgeDoubted(count: number): void {
    for (const edit of this.doubted.splice(0, count)) {
      const judged = this.judge(edit, 'last')
      if (judged !== undefined) this.waiting.push(judged)
    }
  }

  /** What others stored comes before everything that waits here, which is judged again on top of it. */
  private follow(updates: readonly LoggedUpdate[]): void {
    const { proposal, owners, followed, state } = this.parts
    this.followedMs = performance.now()
    const again = this.waiting.splice(0)
    for (const { newClients } of again) for (const client of newClients) owners.delete(client)
    this.seq = updates.at(-1)?.seq ?? this.seq
    followed(updates)
    if (again.length > 0 || !proposal.follow(updates.map(({ update }) => update))) proposal.renew([state()])
    for (const { edit } of again) {
      const judged = this.judge(edit, 'again')
      if (judged !== undefined) this.waiting.push(judged)
    }
  }

  private judge(edit: Edit, time: Time): Pending | undefined {
    const pending = edit.kind === 'own' ? this.judgeOwn(edit) : this.judgeSent(edit, time)
    for (const client of pending?.newClients ?? []) this.parts.owners.set(client, edit.by.participant)
    return pending
  }

  private judgeSent(edit: JudgedEdit, time: Time): Pending | undefined {
    const verdict = this.parts.proposal.check(edit.update, edit.by, this.parts.owners, edit.nowMs)
    // What is judged again because others were first has been counted.
    const tooOften = verdict.ok && time !== 'again' ? this.parts.tooOften(edit, verdict.changes) : undefined
    if (verdict.ok && tooOften === undefined) return { ...verdict, edit, update: edit.update }
    if (verdict.ok || verdict.spoilt) this.renewProposal()
    if (!verdict.ok && time === 'first') this.doubt(edit)
    else this.refuse(edit, verdict.ok ? (tooOften as Refusal) : verdict.refused)
    return undefined
  }

  private refuse(edit: JudgedEdit, refused: Refusal): void {
    if (edit.kind === 'sent') return edit.session.refuse(edit.frame, refused)
    this.parts.refusedUnnamed(refused.code)
    edit.refused(refused)
  }

  private renewProposal(): void {
    this.parts.proposal.renew([this.parts.state(), ...this.underWay().map(({ update }) => update)])
  }

  private judgeOwn(edit: OwnEdit): Pending | undefined {
    try {
      const { update, changes, client } = this.parts.proposal.take(edit.edit)
      const empty = changes.length === 0
      return { edit, update, changes, newClients: empty ? [] : [client], empty }
    } catch (error) {
      edit.failed(error)
      return undefined
    }
  }

  private underWay(): readonly Pending[] {
    return [...this.inFlight, ...this.waiting]
  }

  private toEntry({ edit, update, newClients, changes }: Pending): UpdateEntry {
    return {
      document: this.parts.document,
      update,
      author: edit.by.participant,
      role: edit.by.role,
      at: new Date(edit.nowMs).toISOString(),
      clients: newClients,
      marks: changes.flatMap(marksOf),
    }
  }
}

function confirm({ edit }: Pending): void {
  if (edit.kind === 'sent') edit.session.stored(edit.frame)
  else edit.stored()
}
