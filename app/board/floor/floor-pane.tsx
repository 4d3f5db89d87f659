'use client'

import { useMemo } from 'react'
import { useBoard, useMay, useThreads } from '@/app/board/board-context.tsx'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { Badge } from '@/app/components/badge.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { Pane } from '@/app/components/pane.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { FloorView } from './floor-view.tsx'
import { actsAtAll, questionKeys } from './question-rights.ts'
import { useFloorActs, useFloorDesk } from './use-floor-desk.ts'

/** The floor of the open case: reads both documents and makes the edits. */
export default function FloorPane() {
  const { floor, words } = useMessages()
  const { caseId } = useBoard()
  const threads = useThreads()
  useKeyHelp()
  const waiting = threads.filter(({ question }) => question.state === 'raised').length
  return (
    <Pane
      title={floor.title}
      actions={waiting > 0 && <Badge count={waiting} label={floor.list.group(words.questionState.raised, waiting)} />}
    >
      <KeptTextScope value={caseId}>
        <FloorView threads={threads} desk={useFloorDesk(useFloorActs())} />
      </KeptTextScope>
    </Pane>
  )
}

/** Names the keys in the page's list of keys. The rows act on them, while one of them has the focus. */
function useKeyHelp(): void {
  const { floor } = useMessages()
  const { me } = useBoard()
  const may = useMay()
  const shortcuts = useMemo(() => {
    const ofRow = (key: string, does: string): Shortcut => ({ key, does, when: () => false, act: () => undefined })
    const acts = actsAtAll(may, me.participant).map((act) => ofRow(questionKeys[act], floor.act[act]))
    return [
      ofRow('↑ ↓', floor.keys.move),
      ofRow('↵', floor.keys.open),
      ...acts,
      ...(may.mayChange('questions', 'rank', { author: me.participant }) ? [ofRow('Alt ↕', floor.keys.order)] : []),
      ofRow('Esc', floor.keys.leave),
    ]
  }, [floor, me.participant, may])
  useShortcuts(floor.keys.title, shortcuts)
}
