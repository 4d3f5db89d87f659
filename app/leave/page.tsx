import { leavePart } from '@/app/messages/parts/leave.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { LeavePage } from './leave-page.tsx'

export const generateMetadata = titleFrom(leavePart, ({ leave }) => leave.title)

export default function Leave() {
  return <LeavePage />
}
