import { useMemo } from 'react'
import { useTable } from '@/app/board/board-context.tsx'
import { usePictures } from '@/app/board/pictures/use-pictures.ts'
import type { Choice } from '@/app/components/choice-box.tsx'
import { type Messages, useMessages } from '@/app/messages/for-desk.ts'
import { clockOf } from '@/app/messages/moments.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { plainText } from '@/lib/board/rich-text.ts'

type Shown = Exclude<Showing, { kind: 'nothing' }>

/** Names, by id, of the records that the main screen can show. */
type Names = ReadonlyMap<string, string>

/** What can be put on the main screen, each in words. */
export function useShowable() {
  const messages = useMessages()
  const names = useNames()
  return useMemo(() => {
    const title = (showing: Showing): string =>
      showing.kind === 'nothing' ? '' : titleOf(showing, names.all, messages)
    const of = (
      kind: 'question' | 'note' | 'contingency' | 'scenario' | 'sealed-forecast' | 'vote' | 'picture',
      found: Names,
    ) => [...found.keys()].map((id): Shown => ({ kind, id }))
    const all: readonly Shown[] = [
      { kind: 'audiogram', ear: 'both' },
      { kind: 'audiogram', ear: 'right' },
      { kind: 'audiogram', ear: 'left' },
      { kind: 'steps' },
      { kind: 'options' },
      { kind: 'forecast' },
      ...of('note', names.notes),
      ...of('contingency', names.contingencies),
      ...of('scenario', names.scenarios),
      ...of('sealed-forecast', names.forecasts),
      ...of('vote', names.votes),
      ...of('picture', names.pictures),
      ...of('question', names.questions),
      { kind: 'sync-mark' },
    ]
    const choices: readonly Choice[] = all.map((showing) => ({
      id: JSON.stringify(showing),
      sort: messages.desk.screen.kind[showing.kind],
      label: title(showing),
    }))
    const kindOf = (showing: Showing): string =>
      showing.kind === 'nothing' ? messages.desk.screen.nothing : messages.desk.screen.kind[showing.kind]
    return { title, kindOf, choices }
  }, [names, messages])
}

function titleOf(showing: Shown, names: Names, { desk, words }: Messages): string {
  const { screen } = desk
  switch (showing.kind) {
    case 'audiogram':
      return showing.ear === 'both' ? screen.bothEars : words.ear[showing.ear]
    case 'forecast':
      return screen.forecastOfPlan
    case 'options':
      return screen.allOptions
    case 'steps':
      return screen.courseOfSteps
    case 'sync-mark':
      return screen.mark
    default:
      return names.get(showing.id) ?? screen.gone
  }
}

function useNames() {
  const questions = useTable('questions')
  const notes = useTable('notes')
  const contingencies = useTable('contingencies')
  const scenarios = useTable('scenarios')
  const forecasts = useTable('forecasts')
  const votes = useTable('votes')
  const pictures = usePictures()
  return useMemo(() => {
    const tables = {
      questions: new Map([...questions].sort(byRank).map(({ id, text }) => [id, text])),
      notes: new Map(
        [...notes]
          .sort(byRank)
          .filter(({ struck }) => struck === undefined)
          .map(({ id, body }) => [id, plainText(body)]),
      ),
      contingencies: new Map([...contingencies].sort(byRank).map(({ id, plan }) => [id, plan])),
      scenarios: new Map(scenarios.map(({ id, title }) => [id, title])),
      forecasts: new Map(forecasts.map(({ id, at }) => [id, at])),
      votes: new Map(votes.map(({ id, question }) => [id, question])),
      // The newest first: it is what the room waits for.
      pictures: new Map(
        pictures.toReversed().map(({ id, at, caption }) => [id, caption === '' ? clockOf(at) : caption]),
      ),
    }
    return { ...tables, all: new Map(Object.values(tables).flatMap((table) => [...table])) }
  }, [questions, notes, contingencies, scenarios, forecasts, votes, pictures])
}
