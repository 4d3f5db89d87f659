import type { ParticipantId } from '../../lib/board/identity.ts'
import { TokenBucket } from '../room/token-bucket.ts'

/** People whose pace is remembered; beyond it the one who has been still for longest starts anew. */
const mostPaces = 2000

/** How often one person may ask for something: so often a second for long, and so many at once after a pause. */
export function createPace(
  { perSecond, burst }: { readonly perSecond: number; readonly burst: number },
  now: () => Date,
): (participant: ParticipantId) => boolean {
  const paces = new Map<ParticipantId, TokenBucket>()
  return (participant) => {
    const nowMs = now().getTime()
    const pace = paces.get(participant) ?? new TokenBucket(perSecond, burst, nowMs)
    paces.delete(participant)
    paces.set(participant, pace)
    const oldest = paces.keys().next()
    if (paces.size > mostPaces && !oldest.done) paces.delete(oldest.value)
    return !pace.take(nowMs)
  }
}
