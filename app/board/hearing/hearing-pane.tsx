'use client'

import { Pane } from '@/app/components/pane.tsx'
import { useMessages } from '../board-context.tsx'

export default function HearingPane() {
  const { board, shell } = useMessages()
  return <Pane title={board.pane.hearing}>{shell.loading}</Pane>
}
