import { visitName } from '@/app/follow-up/visit-name.ts'
import type { Messages } from '@/app/messages/for-report.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import { triggerSentence } from '@/lib/board/trigger-sentence.ts'
import type { CaseReport } from '@/lib/report/case-report.ts'
import type { Entry } from './sheet.ts'
import { shortened } from './shortened.ts'

/** @param longest characters of a finding, plan and outcome; absent: in full */
export function contingencyEntry(
  contingency: Contingency,
  report: Pick<CaseReport, 'metByMeasurement' | 'heldVisits'>,
  messages: Messages,
  longest = Number.POSITIVE_INFINITY,
): Entry {
  const { id, trigger, plan, acted } = contingency
  const whole = triggerSentence(trigger, messages.decisions.trigger)
  // What is measured is said in a sentence of bounded length; its end names the reference, which must not be cut off.
  const sentence = trigger.kind === 'found' ? shortened(whole, longest) : whole
  const labels = messages.report.contingencies
  const line = labels.line(stateText(contingency, report, messages), sentence, shortened(plan, longest))
  return { id, text: acted === undefined ? line : `${line}${labels.acted(shortened(acted.what, longest))}` }
}

function stateText(
  { id, state }: Contingency,
  { metByMeasurement, heldVisits }: Pick<CaseReport, 'metByMeasurement' | 'heldVisits'>,
  messages: Messages,
): string {
  const word = messages.words.contingencyState[state]
  const visit = heldVisits.find((held) => held.id === metByMeasurement.get(id))
  return visit === undefined ? word : messages.report.contingencies.watchedButMet(word, visitName(visit, messages))
}
