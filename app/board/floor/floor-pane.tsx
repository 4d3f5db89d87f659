'use client'

import { useContext, useMemo } from 'react'
import { PeopleContext, useBoard, useMay, useSingle, useTable, useThreads } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { usePutOnScreen } from '@/app/board/put-on-screen.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { Badge } from '@/app/components/badge.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { Pane } from '@/app/components/pane.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import * as edits from '@/lib/board/edits/floor.ts'
import { byRank } from '@/lib/board/reading.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { currentThreshold } from './current-threshold.ts'
import type { FloorActs, FloorDesk } from './floor-desk.ts'
import { FloorView } from './floor-view.tsx'
import { actsAtAll, questionKeys } from './question-rights.ts'

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
        <FloorView threads={threads} desk={useFloorDesk()} />
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

function useFloorDesk(): FloorDesk {
  const { me } = useBoard()
  const people = useContext(PeopleContext)
  const ear = useSingle('header')?.ear ?? 'right'
  const tests = useTable('tests')
  const notes = useNamedNotes()
  const steps = useNamedSteps()
  const may = useMay()
  const acts = useFloorActs()
  const beforePosting = usePostGuard()
  return useMemo(
    () => ({
      me: me.participant,
      ear,
      people,
      notes,
      steps,
      may,
      acts,
      beforePosting,
      thresholdAt: (of, frequency) => currentThreshold(tests, of, frequency),
    }),
    [me.participant, ear, people, notes, steps, may, acts, beforePosting, tests],
  )
}

const labelLength = 80

function useNamedNotes() {
  const notes = useTable('notes')
  const { floor } = useMessages()
  return useMemo(
    () =>
      [...notes]
        .sort(byRank)
        .filter(({ struck }) => struck === undefined)
        .map(({ id, body }) => ({ id, label: plainText(body).slice(0, labelLength).trim() || floor.anchor.emptyNote })),
    [notes, floor],
  )
}

function useNamedSteps() {
  const steps = useTable('steps')
  return useMemo(() => [...steps].sort(byRank).map(({ id, title }) => ({ id, label: title })), [steps])
}

/** The edits, each followed by a short word to whoever made it where the page does not show it by itself. */
function useFloorActs(): FloorActs {
  const { floor: doc, pen } = useBoard()
  const { floor } = useMessages()
  const say = useSay()
  const put = usePutOnScreen()
  return useMemo(() => {
    const saying = (sentence: string, edit: () => void) => {
      edit()
      say(sentence)
    }
    const { done } = floor
    return {
      ask: (words) => void edits.raiseQuestion(doc, pen, words),
      reword: (id, words) => edits.rewordQuestion(doc, id, words),
      reply: (id, text) => void edits.reply(doc, pen, id, text),
      back: (thread) => edits.toggleThreadBacking(doc, pen, thread),
      call: (id) => saying(done.called, () => edits.callQuestion(doc, pen, id)),
      answer: (id, text, saidBy) => saying(done.answered, () => edits.answerQuestion(doc, pen, id, text, saidBy)),
      draftAnswer: (id, text, saidBy) => saying(done.answered, () => edits.writeAnswer(doc, pen, id, text, saidBy)),
      defer: (id, to) => saying(done.deferred, () => edits.deferQuestion(doc, pen, id, to)),
      setAside: (id) => saying(done['set-aside'], () => edits.moveQuestion(doc, pen, id, 'set-aside')),
      reopen: (id) => saying(done.raised, () => edits.moveQuestion(doc, pen, id, 'raised')),
      fold: (id, into) => saying(done.folded, () => edits.foldQuestion(doc, id, into)),
      unfold: (id) => saying(done.unfolded, () => edits.unfoldQuestion(doc, id)),
      shift: (id, by) => edits.shiftQuestion(doc, id, by),
      screen: put && ((id) => saying(done.onScreen, () => put({ kind: 'question', id }))),
    }
  }, [doc, pen, floor, say, put])
}
