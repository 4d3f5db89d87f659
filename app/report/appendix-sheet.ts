import { visitName } from '@/app/follow-up/visit-name.ts'
import { calendarDayOf, dayOf } from '@/app/messages/moments.ts'
import type { Question } from '@/lib/board/records/question.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { dayOfVisit } from '@/lib/board/visit-plan.ts'
import type { DeferredQuestion, ReportAppendix } from '@/lib/report/appendix.ts'
import type { CaseReport } from '@/lib/report/case-report.ts'
import { contingencyEntry } from './contingency-entry.ts'
import type { SheetWords } from './record-sheet.ts'
import type { Entry, Sheet } from './sheet.ts'

/** Decisions with their votes, and questions with what became of them. As long as it has to be. */
export function appendixSheet(report: CaseReport, appendix: ReportAppendix, words: SheetWords): Sheet {
  const { messages } = words
  const labels = messages.report.appendix
  const orNone = (entries: readonly Entry[], none: string) =>
    entries.length > 0 ? entries : [{ id: 'none', text: none }]
  const votes = (of: readonly Vote[]) => of.flatMap((vote) => voteText(vote, words))
  const decisions = [
    ...appendix.decisions.map(({ note, votes: of }) => ({
      id: note.id,
      text: messages.words.labelled(messages.decisions.kind[note.kind], plainText(note.body)),
      under: votes(of),
    })),
    ...appendix.otherVotes.map((vote) => ({ id: vote.id, text: votes([vote]).join(' ') })),
  ]
  const list = (title: string, entries: readonly Entry[]) => ({ kind: 'list', title, entries, tone: 'plain' }) as const
  return {
    kind: 'appendix',
    heading: messages.report.heading.appendix,
    blocks: [
      list(labels.decisions, orNone(decisions, labels.noDecisions)),
      list(
        labels.answered,
        orNone(
          appendix.answered.map((question) => answeredEntry(question, words)),
          labels.noAnswered,
        ),
      ),
      list(
        labels.deferred,
        orNone(
          appendix.deferred.map((of) => deferredEntry(of, words)),
          labels.noDeferred,
        ),
      ),
      list(
        labels.contingencies,
        orNone(
          report.contingencies.map((of) => contingencyEntry(of, report, messages)),
          messages.report.contingencies.none,
        ),
      ),
    ],
    cautions: messages.report.cautions,
  }
}

function voteText({ question, options, result }: Vote, { messages }: SheetWords): readonly string[] {
  if (result === undefined) return []
  const labels = messages.report.appendix
  const counts = options.map((option, index) => labels.count(option, result.options[index]?.votes ?? 0))
  return [labels.vote(question, messages.shell.separated(counts), result.notVoted)]
}

function answeredEntry({ id, text, answer }: Question, { messages, nameOf }: SheetWords): Entry {
  const labels = messages.report.appendix
  if (answer === undefined) return { id, text }
  const who = answer.saidBy === undefined ? labels.loggedBy(nameOf(answer.by)) : labels.saidBy(answer.saidBy)
  return { id, text, under: [labels.answer(answer.text, who, dayOf(answer.at))] }
}

function deferredEntry({ question, item, visit }: DeferredQuestion, { messages }: SheetWords): Entry {
  const { id, text, deferredTo } = question
  const labels = messages.report.appendix
  const day = visit && dayOfVisit(visit)
  const waits =
    visit !== undefined
      ? labels.waitsFor(
          day === undefined
            ? visitName(visit, messages)
            : messages.report.visitOn(visitName(visit, messages), calendarDayOf(day)),
        )
      : deferredTo === undefined
        ? labels.waitsForNobody
        : labels.waitsInWords(deferredTo)
  return { id, text, under: [waits, ...(item?.done === undefined ? [] : [labels.outcome(item.done.outcome)])] }
}
