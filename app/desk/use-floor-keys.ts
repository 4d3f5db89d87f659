import { useMemo } from 'react'
import { type QuestionAct, questionActs, questionKeys } from '@/app/board/floor/question-rights.ts'
import type { useQuestionActs } from '@/app/board/floor/use-question-acts.ts'
import { type Shortcut, useShortcuts } from '@/app/board/shortcuts.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { type View, views } from './floor-views.ts'
import { useLatest } from './use-latest.ts'

interface FloorKeys {
  readonly current: Thread | undefined
  readonly questionActs: ReturnType<typeof useQuestionActs>
  readonly go: (by: -1 | 1) => void
  readonly queue: () => void
  readonly join: () => void
  readonly keepApart: () => void
  readonly theme: () => void
  readonly nextTheme: () => void
  readonly find: () => void
  readonly view: (view: View) => void
}

/** Registers the keys once; what they act on is that of the last draw. */
export function useFloorKeys(keys: FloorKeys): void {
  const { desk, floor, words } = useMessages()
  const latest = useLatest(keys)
  const onQuestion = useMemo<Shortcut[]>(() => {
    const mayDo = (act: QuestionAct) => {
      const { current, questionActs: acts } = latest.current
      return current !== undefined && (act === 'screen' || acts.rightsTo(current)[act])
    }
    const shift = (by: -1 | 1) => {
      const { current, questionActs: acts } = latest.current
      if (current !== undefined && acts.rightsTo(current).order) acts.shift(current, by)
    }
    const does = (act: QuestionAct): string =>
      act === 'screen' ? desk.keys.screenAndTheatre : act === 'call' ? desk.keys.call : floor.act[act]
    return [
      ...questionActs
        .filter((act) => act !== 'draftAnswer')
        .map((act) => ({
          key: questionKeys[act],
          does: does(act),
          when: () => mayDo(act),
          act: () => {
            const { current, questionActs: acts } = latest.current
            if (current !== undefined) acts.act(current, act)
          },
        })),
      { key: 'q', does: desk.keys.queueIt, act: () => latest.current.queue() },
      { key: 'y', does: desk.keys.join, act: () => latest.current.join() },
      { key: 'p', does: desk.keys.apart, act: () => latest.current.keepApart() },
      { key: 't', does: desk.keys.theme, act: () => latest.current.theme() },
      { key: 'K', does: desk.keys.earlier, act: () => shift(-1) },
      { key: 'J', does: desk.keys.later, act: () => shift(1) },
    ]
  }, [desk, floor, latest])
  useShortcuts(desk.keys.questions, onQuestion)
  const onFloor = useMemo<Shortcut[]>(
    () => [
      { key: 'j', does: desk.keys.next, act: () => latest.current.go(1) },
      { key: 'k', does: desk.keys.previous, act: () => latest.current.go(-1) },
      { key: '↵', does: desk.keys.thread, when: () => false, act: () => undefined },
      ...views.map((view, index) => ({
        key: String(index),
        does: view === 'open' ? desk.keys.openOnes : desk.keys.state(words.questionState[view]),
        act: () => latest.current.view(view),
      })),
      { key: 'v', does: desk.keys.nextTheme, act: () => latest.current.nextTheme() },
      { key: '/', does: desk.keys.find, act: () => latest.current.find() },
    ],
    [desk, words, latest],
  )
  useShortcuts(desk.keys.floor, onFloor)
}
