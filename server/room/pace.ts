import type { ParticipantId } from '../../lib/board/identity.ts'
import type { KindName } from '../../lib/board/records.ts'
import { type Refusal, refusal } from '../../lib/board/refusals.ts'
import type { Change } from '../../lib/board/rules.ts'
import { type Paced, paceLimits } from './limits.ts'
import { TokenBucket } from './token-bucket.ts'

const isPaced = (kind: KindName): kind is Paced => Object.hasOwn(paceLimits, kind)

/** How fast each person of the panel may write on the floor, over all their pages and links (rule R9). */
export class Pace {
  private readonly buckets = new Map<string, TokenBucket>()

  /**
   * Counts what somebody is about to write.
   * @returns the reason against it, with how long to wait; then nothing was counted
   */
  refusalOf(participant: ParticipantId, changes: readonly Change[], nowMs: number): Refusal | undefined {
    const counts = new Map<Paced, number>()
    for (const { kind } of changes) if (isPaced(kind)) counts.set(kind, (counts.get(kind) ?? 0) + 1)
    for (const [kind, count] of counts) {
      const bucket = this.bucketOf(participant, kind, nowMs)
      const { burst, perMinute, atOnce } = paceLimits[kind]
      const waitMs = count > atOnce ? (burst / perMinute) * 60_000 : bucket.waitMs(nowMs)
      if (waitMs > 0) return refusal('too-often', kind, { kind, waitSeconds: Math.ceil(waitMs / 1000) })
    }
    for (const [kind, count] of counts) this.bucketOf(participant, kind, nowMs).spend(count)
    return undefined
  }

  private bucketOf(participant: ParticipantId, kind: Paced, nowMs: number): TokenBucket {
    const key = `${participant} ${kind}`
    const known = this.buckets.get(key)
    if (known !== undefined) return known
    const { burst, perMinute } = paceLimits[kind]
    const bucket = new TokenBucket(perMinute / 60, burst, nowMs)
    this.buckets.set(key, bucket)
    return bucket
  }
}
