'use client'

import { useContext } from 'react'
import { PeopleContext, useMessages } from '@/app/board/board-context.tsx'
import type { ParticipantId } from '@/lib/board/identity.ts'

/** Names of whoever is listed in the case. */
export function useNameOf(): (participant: ParticipantId) => string {
  const people = useContext(PeopleContext)
  const { board } = useMessages()
  return (participant) => people.get(participant)?.name ?? board.unknownPerson
}
