import { useCallback, useContext } from 'react'
import { PeopleContext } from '@/app/board/board-context.tsx'
import type { TestInWords } from '@/app/messages/en/audiogram.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { ParticipantId } from '@/lib/board/identity.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'

/** Names of people by id, with a word for those no longer listed. */
export function useNames(): (participant: ParticipantId) => string {
  const people = useContext(PeopleContext)
  const { board } = useMessages()
  return useCallback((participant) => people.get(participant)?.name ?? board.unknownPerson, [people, board])
}

/** The calendar day of a moment (UTC), ISO 8601. */
export const dayOf = (moment: string): string => moment.slice(0, 10)

export function inWords(test: HearingTest, nameOf: (participant: ParticipantId) => string): TestInWords {
  const { state, ear, condition, performedOn, verification } = test
  return {
    state,
    ear,
    condition,
    performedOn,
    verifiedBy: verification && nameOf(verification.by),
    verifiedOn: verification && dayOf(verification.at),
  }
}
