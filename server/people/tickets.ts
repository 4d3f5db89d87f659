import { z } from 'zod'
import { CaseId, Moment, ParticipantId } from '../../lib/board/identity.ts'
import { Role } from '../../lib/board/roles.ts'
import type { Signer } from './signer.ts'

export const ticketMinutes = 10

/** A pass for one program that is not a browser: one participant, one case, one role, for minutes. */
export const Ticket = z.strictObject({ participant: ParticipantId, caseId: CaseId, role: Role, expiresAt: Moment })
export type Ticket = z.infer<typeof Ticket>

export function issueTicket(signer: Signer, pass: Omit<Ticket, 'expiresAt'>, now: Date): string {
  const ticket: Ticket = { ...pass, expiresAt: new Date(now.getTime() + ticketMinutes * 60_000).toISOString() }
  return signer.sign('ticket', Buffer.from(JSON.stringify(ticket)).toString('base64url'))
}

/** @returns the ticket, or undefined when it is not ours or its time is over */
export function readTicket(signer: Signer, text: string, now: Date): Ticket | undefined {
  const encoded = signer.verify('ticket', text)
  if (encoded === undefined) return undefined
  const ticket = Ticket.parse(JSON.parse(Buffer.from(encoded, 'base64url').toString('utf8')))
  return new Date(ticket.expiresAt) > now ? ticket : undefined
}
