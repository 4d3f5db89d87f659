import type { Messages } from '@/app/messages/for-follow-up.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { frequencyOf } from '@/app/screen/formats.ts'
import type { Threshold } from '@/lib/audiometry/thresholds.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import type { WantedThresholds } from '@/lib/board/records/visit-item.ts'
import type { VisitAnswer } from '@/lib/board/visit-answer.ts'
import { dayOfVisit } from '@/lib/board/visit-plan.ts'
import { visitName } from './visit-name.ts'

const thresholdText = (threshold: Threshold, { items }: Messages['followUp']): string => {
  switch (threshold.kind) {
    case 'heard':
      return items.heard(threshold.level)
    case 'no-response':
      return items.noResponse(threshold.limit)
    case 'could-not-test':
      return items.couldNotTest
    default:
      return threshold satisfies never
  }
}

export const frequenciesText = (frequencies: readonly number[], language: string): string =>
  frequencies.map((frequency) => frequencyOf(frequency, language)).join(', ')

export const wantedText = ({ route, ear, frequencies }: WantedThresholds, messages: Messages): string =>
  messages.followUp.items.wanted(
    messages.followUp.items.routes[route],
    messages.words.earShort[ear],
    frequenciesText(frequencies, messages.language),
  )

/** The numbers of a visit as an answer to read; undefined where it has none. */
export function answerText({ wanted, found }: VisitAnswer, visit: Visit, messages: Messages): string | undefined {
  if (found.length === 0) return undefined
  const { followUp, words, language } = messages
  const levels = found.flatMap(({ frequency, now, before }) =>
    now === undefined
      ? []
      : [
          followUp.items.level(
            frequencyOf(frequency, language),
            thresholdText(now, followUp),
            before && thresholdText(before, followUp),
          ),
        ],
  )
  return followUp.items.answer(
    followUp.items.routes[wanted.route],
    words.earShort[wanted.ear],
    visitName(visit, messages),
    calendarDayOf(dayOfVisit(visit) ?? ''),
    levels,
  )
}
