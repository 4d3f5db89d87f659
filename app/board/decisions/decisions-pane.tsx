'use client'

import { lazy, Suspense, useContext, useMemo } from 'react'
import type * as Y from 'yjs'
import { PeopleContext, useBoard, useMay, useTable } from '@/app/board/board-context.tsx'
import { highlight } from '@/app/board/chart-pick.ts'
import { jumpTo } from '@/app/board/jump.ts'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { usePresenceUser, useTyping } from '@/app/board/presence.ts'
import { usePutOnScreen } from '@/app/board/put-on-screen.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { Pane } from '@/app/components/pane.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import * as edits from '@/lib/board/edits/decisions.ts'
import { fileUnderStep } from '@/lib/board/edits/steps.ts'
import { recordMap } from '@/lib/board/edits/writing.ts'
import { byRank } from '@/lib/board/reading.ts'
import { ContingencyState } from '@/lib/board/records/contingency.ts'
import { paragraphs } from '@/lib/board/rich-text.ts'
import { moveKeys, noteActs, noteKeys } from './decision-rights.ts'
import type { Citable, DecisionsActs, DecisionsDesk, WritingDesk } from './decisions-desk.ts'
import { DecisionsView } from './decisions-view.tsx'
import { typingPlace } from './typists.tsx'

const VotesSection = lazy(() => import('../votes/votes-section.tsx'))

/** Notes and contingencies of the open case: reads the record and makes the edits. */
export default function DecisionsPane() {
  const { decisions } = useMessages()
  const { caseId } = useBoard()
  useKeyHelp()
  const notes = useTable('notes')
  const contingencies = useTable('contingencies')
  return (
    <Pane title={decisions.title}>
      <KeptTextScope value={caseId}>
        <DecisionsView
          notes={useMemo(() => [...notes].sort(byRank), [notes])}
          contingencies={useMemo(() => [...contingencies].sort(byRank), [contingencies])}
          desk={useDecisionsDesk()}
        />
        <Suspense>
          <VotesSection />
        </Suspense>
      </KeptTextScope>
    </Pane>
  )
}

/** Names the keys in the page's list of keys, for those who write here. The rows act on them. */
function useKeyHelp(): void {
  const { decisions, words } = useMessages()
  const may = useMay()
  const shortcuts = useMemo(() => {
    const ofRow = (key: string, does: string): Shortcut => ({ key, does, when: () => false, act: () => undefined })
    const named = noteActs
      .filter((act) => act !== 'screen' || may.mayCreate('mainScreen'))
      .map((act) => ofRow(noteKeys[act], decisions.act[act]))
    const moves = ContingencyState.options.map((state) => ofRow(moveKeys[state], words.contingencyState[state]))
    const order = ofRow('Alt ↕', decisions.keys.order)
    return may.mayCreate('notes') ? [ofRow('↑ ↓', decisions.keys.move), ...named, ...moves, order] : []
  }, [decisions, words, may])
  useShortcuts(decisions.keys.title, shortcuts)
}

function useDecisionsDesk(): DecisionsDesk {
  const { me } = useBoard()
  const people = useContext(PeopleContext)
  const may = useMay()
  const acts = useDecisionsActs()
  const citable = useCitable()
  const steps = useStepChoices()
  const writing = useWriting()
  const beforePosting = usePostGuard()
  const annotations = useTable('annotations')
  return useMemo(
    () => ({
      me: me.participant,
      people,
      may,
      acts,
      citable,
      steps,
      writing,
      beforePosting,
      goTo: ({ kind, id }) => {
        if (kind === 'annotation') highlight(annotations.find((annotation) => annotation.id === id)?.place)
        else jumpTo({ kind: kind === 'question' ? 'questions' : 'tests', id })
      },
    }),
    [me.participant, people, may, acts, citable, steps, writing, beforePosting, annotations],
  )
}

/** The shared text of a note, under whatever document is current (a refused edit replaces it). */
function useWriting(): WritingDesk {
  const { record, awareness } = useBoard()
  const user = usePresenceUser()
  const publish = useTyping()
  return useMemo(
    () => ({
      awareness,
      user,
      fragmentOf: (note) => recordMap(record, 'notes', note).get('body') as Y.XmlFragment,
      typing: (note) => publish(note === null ? null : typingPlace(note)),
    }),
    [record, awareness, user, publish],
  )
}

function useCitable(): readonly Citable[] {
  const questions = useTable('questions')
  const annotations = useTable('annotations')
  const tests = useTable('tests')
  const { decisions, words } = useMessages()
  return useMemo(
    () => [
      ...tests.map(({ id, ear, condition, performedOn }) => ({
        citation: { kind: 'test', id } as const,
        label: decisions.note.test(words.ear[ear], words.condition[condition], performedOn),
      })),
      ...annotations.map(({ id, text }) => ({ citation: { kind: 'annotation', id } as const, label: text })),
      ...[...questions]
        .sort(byRank)
        .map(({ id, text }) => ({ citation: { kind: 'question', id } as const, label: text })),
    ],
    [questions, annotations, tests, decisions, words],
  )
}

function useStepChoices(): DecisionsDesk['steps'] {
  const steps = useTable('steps')
  const { decisions } = useMessages()
  return useMemo(
    () =>
      steps.toSorted(byRank).map(({ id, title }, index) => ({ id, label: decisions.step.numbered(index + 1, title) })),
    [steps, decisions],
  )
}

/** The edits, each followed by a short word to whoever made it where the page does not show it by itself. */
function useDecisionsActs(): DecisionsActs {
  const { record: doc, pen } = useBoard()
  const { decisions, words } = useMessages()
  const say = useSay()
  const put = usePutOnScreen()
  return useMemo(() => {
    const saying = (sentence: string, edit: () => void) => {
      edit()
      say(sentence)
    }
    const { done } = decisions
    return {
      startNote: (kind) => edits.startNote(doc, pen, kind, paragraphs('')),
      changeKind: (id, kind) => edits.changeNoteKind(doc, id, kind),
      cite: (id, citation) => saying(done.cited, () => edits.citeInNote(doc, id, citation)),
      dropCitation: (id, citation) => edits.dropCitation(doc, id, citation),
      strike: (id, reason) => saying(done.struck, () => edits.strikeNote(doc, pen, id, reason)),
      shiftNote: (id, by) => edits.shiftNote(doc, id, by),
      addContingency: (trigger, plan) => saying(done.written, () => edits.addContingency(doc, pen, trigger, plan)),
      rewordContingency: (id, trigger, plan) =>
        saying(done.written, () => edits.rewordContingency(doc, id, trigger, plan)),
      moveContingency: (id, state, why) =>
        saying(done.moved(words.contingencyState[state]), () => edits.moveContingency(doc, pen, id, state, why)),
      shiftContingency: (id, by) => edits.shiftContingency(doc, id, by),
      fileUnder: (kind, id, step) => fileUnderStep(doc, kind, id, step),
      screen: put && ((kind, id) => saying(done.onScreen, () => put({ kind, id }))),
    }
  }, [doc, pen, decisions, words, say, put])
}
