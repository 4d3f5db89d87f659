import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Throttle } from '../http/throttle.ts'
import type { Neighbours } from './neighbours.ts'

/** What one process does because of something that happened at any of them. */
export interface SharedDoings {
  /** Somebody's access may have shrunk: their sockets close. */
  expel(participant: ParticipantId): void
  /** A programme is not what it was: its followers are told. */
  programmeChanged(programme: string): void
  /** Counts tries of unknown links, at whichever process they were made. */
  readonly throttle: Throttle
}

/** @returns the same doings, which now happen at every process */
export function shareWith(neighbours: Neighbours, { expel, programmeChanged, throttle }: SharedDoings): SharedDoings {
  neighbours.listen({
    heard: (_, notice) => {
      if (notice.kind === 'access-changed') expel(notice.participant)
      else if (notice.kind === 'programme-changed') programmeChanged(notice.programme)
      else if (notice.kind === 'link-missed') throttle.countMiss(notice.address)
    },
  })
  return {
    expel: (participant) => {
      expel(participant)
      neighbours.tell({ kind: 'access-changed', participant })
    },
    programmeChanged: (programme) => {
      programmeChanged(programme)
      neighbours.tell({ kind: 'programme-changed', programme })
    },
    throttle: {
      isBlocked: throttle.isBlocked,
      countMiss: (address) => {
        throttle.countMiss(address)
        neighbours.tell({ kind: 'link-missed', address })
      },
    },
  }
}
