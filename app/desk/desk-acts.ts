'use client'

import { useMemo } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import type { FloorActs } from '@/app/board/floor/floor-desk.ts'
import { useSpeakersActs } from '@/app/board/floor/use-floor-desk.ts'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import { showOnMainScreen, startNote } from '@/lib/board/edits/decisions.ts'
import * as floorEdits from '@/lib/board/edits/floor.ts'
import { bringNext, dropFromQueue, queueForScreen, shiftInQueue } from '@/lib/board/edits/up-next.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { readTable } from '@/lib/board/reading.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { Note } from '@/lib/board/records/note.ts'
import { paragraphs } from '@/lib/board/rich-text.ts'
import { currentStep } from '@/lib/board/running-record.ts'
import { showsRecord } from '@/lib/board/withdrawal.ts'
import { useDeeds } from './deeds.tsx'

/** What the desk does beyond the acts of the floor; each can be taken back for a while. */
export interface DeskActs extends FloorActs {
  queue(showing: Showing): void
  bring(entry?: RecordId): void
  drop(entry: RecordId): void
  shiftNext(entry: RecordId, by: -1 | 1): void
  show(showing: Showing): void
  theme(question: RecordId, theme: string): void
  write(kind: Note['kind'], line: string): void
}

/** The acts of the moderator's desk, each one press and remembered. */
export function useDeskActs(): DeskActs {
  const { record, floor, pen } = useBoard()
  const { desk } = useMessages()
  const { act } = useDeeds()
  const say = useSay()
  const speakers = useSpeakersActs()
  const step = currentStep(useTable('steps'))?.id
  return useMemo(() => {
    const { done } = desk
    const onFloor = (label: string, question: RecordId, edit: () => void) => act(label, { question, floor: edit })
    const onScreen = (label: string, edit: () => void) =>
      act(label, { record: { kinds: ['mainScreen', 'upNext'], edit } })
    return {
      ...speakers,
      call: (id) => onFloor(done.called, id, () => floorEdits.callQuestion(floor, pen, id)),
      answer: (id, text, saidBy) =>
        onFloor(done.answered, id, () => floorEdits.answerQuestion(floor, pen, id, { text, saidBy, step })),
      draftAnswer: (id, text, saidBy) =>
        onFloor(done.answered, id, () => floorEdits.writeAnswer(floor, pen, id, { text, saidBy, step })),
      defer: (id, to) => onFloor(done.deferred, id, () => floorEdits.deferQuestion(floor, pen, id, to)),
      setAside: (id) => onFloor(done['set-aside'], id, () => floorEdits.moveQuestion(floor, pen, id, 'set-aside')),
      reopen: (id) => onFloor(done.raised, id, () => floorEdits.moveQuestion(floor, pen, id, 'raised')),
      fold: (id, into) => onFloor(done.folded, id, () => floorEdits.foldQuestion(floor, pen, id, into)),
      unfold: (id) => onFloor(done.unfolded, id, () => floorEdits.unfoldQuestion(floor, pen, id)),
      shift: (id, by) => onFloor(done.ordered, id, () => floorEdits.shiftQuestion(floor, id, by)),
      theme: (id, theme) => onFloor(done.theme, id, () => floorEdits.toggleTheme(floor, id, theme)),
      // The theatre shows the called question, so that one key reaches surgeon and room.
      screen: (id) =>
        act(done.onScreen, {
          question: id,
          floor: () => floorEdits.callQuestion(floor, pen, id),
          record: {
            kinds: ['mainScreen', 'upNext'],
            edit: () => {
              showOnMainScreen(record, pen, { kind: 'question', id })
              // What is shown now does not come next as well.
              for (const entry of readTable(record, 'upNext'))
                if (showsRecord(entry.showing, id)) dropFromQueue(record, entry.id)
            },
          },
        }),
      queue: (showing) => onScreen(done.queued, () => void queueForScreen(record, pen, showing)),
      bring: (entry) => {
        if (readTable(record, 'upNext').length === 0) return say(desk.nothingQueued)
        onScreen(done.brought, () => void bringNext(record, pen, entry))
      },
      drop: (entry) => onScreen(done.dropped, () => dropFromQueue(record, entry)),
      shiftNext: (entry, by) => onScreen(done.ordered, () => shiftInQueue(record, entry, by)),
      show: (showing) =>
        onScreen(showing.kind === 'nothing' ? done.cleared : done.brought, () =>
          showOnMainScreen(record, pen, showing),
        ),
      write: (kind, line) =>
        act(done.written, {
          record: { kinds: ['notes'], edit: () => void startNote(record, pen, kind, paragraphs(line)) },
        }),
    }
  }, [record, floor, pen, desk, act, say, speakers, step])
}
