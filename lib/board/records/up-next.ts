import * as z from 'zod/mini'
import { Rank, stampFields } from '../identity.ts'
import { Showing } from './main-screen.ts'

/** One entry of the queue for the main screen, which the moderators keep together. */
export const UpNext = z
  .strictObject({ ...stampFields, rank: Rank, showing: Showing })
  .check(z.refine(({ showing }) => showing.kind !== 'nothing', { path: ['showing'], message: 'something to show' }))
export type UpNext = z.infer<typeof UpNext>
