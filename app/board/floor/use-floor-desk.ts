'use client'

import { useContext, useMemo } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { PeopleContext, type Person, useBoard, useMay, useSingle, useTable } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { usePutOnScreen } from '@/app/board/put-on-screen.ts'
import { loadUnnamedApi, UnnamedContext } from '@/app/board/unnamed-authors.ts'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import * as edits from '@/lib/board/edits/floor.ts'
import type { ParticipantId } from '@/lib/board/identity.ts'
import { byRank } from '@/lib/board/reading.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { currentThreshold } from './current-threshold.ts'
import type { FloorActs, FloorDesk } from './floor-desk.ts'

/** What the floor's views need to know of the board; with these acts, or else those of the board. */
export function useFloorDesk(acts: FloorActs): FloorDesk {
  const { me } = useBoard()
  const { people, pictures } = useAskers()
  const { own } = useContext(UnnamedContext)
  const ear = useSingle('header')?.ear ?? 'right'
  const tests = useTable('tests')
  const notes = useNamedNotes()
  const steps = useNamedSteps()
  const scenarios = useNamedScenarios()
  const may = useMay()
  const beforePosting = usePostGuard()
  return useMemo(
    () => ({
      me: me.participant,
      own,
      pictures,
      ear,
      people,
      notes,
      steps,
      scenarios,
      may,
      acts,
      beforePosting,
      thresholdAt: (of, frequency) => currentThreshold(tests, of, frequency),
    }),
    [me.participant, own, pictures, ear, people, notes, steps, scenarios, may, acts, beforePosting, tests],
  )
}

/** Everybody, and for moderators the names behind those who asked without theirs. Pages that a room sees do not use this. */
function useAskers() {
  const people = useContext(PeopleContext)
  const { told } = useContext(UnnamedContext)
  const { board } = useMessages()
  return useMemo(() => {
    const named = new Map<ParticipantId, Person>(people)
    const pictures = new Map<ParticipantId, string>()
    for (const { author, person, pictureAt } of told.values()) {
      if (person !== null)
        named.set(author, { name: board.unnamedToRoom(person.name), affiliation: person.affiliation, role: 'panel' })
      if (pictureAt !== null) pictures.set(author, pictureAt)
    }
    return { people: named, pictures }
  }, [people, told, board])
}

type UnnamedApi = Awaited<ReturnType<typeof loadUnnamedApi>>

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

/** Those that nothing has superseded; the newest first. */
function useNamedScenarios() {
  const scenarios = useTable('scenarios')
  return useMemo(() => {
    const superseded = new Set(scenarios.map(({ supersedes }) => supersedes))
    return scenarios
      .filter(({ id }) => !superseded.has(id))
      .sort((a, b) => (a.at < b.at ? 1 : -1))
      .map(({ id, title }) => ({ id, label: title }))
  }, [scenarios])
}

/** What everybody who speaks may do: ask, reply, back, and take their own back. */
export function useSpeakersActs(): Pick<FloorActs, 'ask' | 'askUnnamed' | 'reword' | 'reply' | 'back' | 'takeBack'> {
  const { floor: doc, pen, caseId } = useBoard()
  const { floor } = useMessages()
  const { own, learn } = useContext(UnnamedContext)
  const say = useSay()
  return useMemo(() => {
    /** What was typed stays in its form when the server cannot be asked or refuses. */
    const byServer = async (tell: (api: UnnamedApi) => Promise<unknown>): Promise<boolean> => {
      try {
        await tell(await loadUnnamedApi())
        return true
      } catch (error) {
        say(sentenceOfFault(error))
        return false
      }
    }
    const here = async (edit: () => void): Promise<boolean> => {
      edit()
      return true
    }
    return {
      ask: (words) => void edits.raiseQuestion(doc, pen, words),
      askUnnamed: (words) => byServer(async ({ askUnnamed }) => learn(await askUnnamed(caseId, words))),
      reword: ({ id, author }, words) =>
        own.has(author)
          ? byServer(({ tellUnnamed }) => tellUnnamed(caseId, author, '', words))
          : here(() => edits.rewordQuestion(doc, id, words)),
      reply: ({ id, author }, text) =>
        own.has(author)
          ? byServer(({ tellUnnamed }) => tellUnnamed(caseId, author, '/reply', { text }))
          : here(() => void edits.reply(doc, pen, id, text)),
      back: (thread) => edits.toggleThreadBacking(doc, pen, thread),
      takeBack: async ({ id, author }) => {
        const isDone = own.has(author)
          ? await byServer(({ tellUnnamed }) => tellUnnamed(caseId, author, '/withdraw', {}))
          : await here(() => edits.withdrawQuestion(doc, id))
        if (isDone) say(floor.done.takenBack)
        return isDone
      },
    }
  }, [doc, pen, caseId, floor, own, learn, say])
}

/** The edits of the board, each followed by a short word to whoever made it where the page does not show it by itself. */
export function useFloorActs(): FloorActs {
  const { floor: doc, pen } = useBoard()
  const { floor } = useMessages()
  const say = useSay()
  const put = usePutOnScreen()
  const speakers = useSpeakersActs()
  return useMemo(() => {
    const saying = (sentence: string, edit: () => void) => {
      edit()
      say(sentence)
    }
    const { done } = floor
    return {
      ...speakers,
      call: (id) => saying(done.called, () => edits.callQuestion(doc, pen, id)),
      answer: (id, text, saidBy) => saying(done.answered, () => edits.answerQuestion(doc, pen, id, { text, saidBy })),
      draftAnswer: (id, text, saidBy) => saying(done.answered, () => edits.writeAnswer(doc, pen, id, { text, saidBy })),
      defer: (id, to) => saying(done.deferred, () => edits.deferQuestion(doc, pen, id, to)),
      setAside: (id) => saying(done['set-aside'], () => edits.moveQuestion(doc, pen, id, 'set-aside')),
      reopen: (id) => saying(done.raised, () => edits.moveQuestion(doc, pen, id, 'raised')),
      fold: (id, into) => saying(done.folded, () => edits.foldQuestion(doc, pen, id, into)),
      unfold: (id) => saying(done.unfolded, () => edits.unfoldQuestion(doc, pen, id)),
      shift: (id, by) => edits.shiftQuestion(doc, id, by),
      screen: put && ((id) => saying(done.onScreen, () => put({ kind: 'question', id }))),
    }
  }, [doc, pen, floor, say, put, speakers])
}
