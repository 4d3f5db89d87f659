import type { Messages } from '@/app/messages/for-forecast.ts'
import type { Scenario } from '@/lib/devices/scenario.ts'
import { isLowConfidence } from '@/lib/forecast/loss-by-frequency.ts'
import type { ScenarioAnswer } from '@/lib/forecast/scenario-answer.ts'
import { percentLeft } from './scenario-draft.ts'

type Words = Messages['whatIf']

/** The scenario in words, without what it does. Empty when it changes nothing. */
export function conditionParts(scenario: Scenario, { spoken }: Words): readonly string[] {
  const { fixation, contact, malleusIncusSlack, incusStapes, innerEarYears = 0 } = scenario
  const parts: string[] = []
  if (fixation !== undefined && fixation.times > 1)
    parts.push(spoken.fixation(spoken.place[fixation.at], fixation.times))
  if (contact !== undefined && contact.lossDb > 0) parts.push(spoken.contact(contact.lossDb))
  if (malleusIncusSlack !== undefined && malleusIncusSlack < 1)
    parts.push(spoken.malleusIncus(percentLeft(malleusIncusSlack)))
  if (incusStapes?.kind === 'apart') parts.push(spoken.apart)
  if (incusStapes?.kind === 'slack' && incusStapes.factor < 1)
    parts.push(spoken.incusStapes(percentLeft(incusStapes.factor)))
  if (innerEarYears > 0) parts.push(spoken.years(innerEarYears))
  return parts
}

export interface Spoken {
  readonly scenario: Scenario
  /** device class and site, as they are spoken */
  readonly option: string
  /** absent: `refused` says why there is none */
  readonly answer: ScenarioAnswer | undefined
  readonly refused?: string | undefined
  readonly hertz: (frequency: number) => string
}

/** What a moderator can read aloud: the condition, the estimate with its interval, and how far it is to be trusted. */
export function spokenAnswer({ scenario, option, answer, refused = '', hertz }: Spoken, words: Words): string {
  const { spoken } = words
  const condition = spoken.condition(conditionParts(scenario, words))
  if (answer === undefined) return condition + spoken.refused(refused)
  return [condition, meanOf(answer, option, words), mostOf(answer, hertz, words), wordsOf(answer, words)]
    .concat(trustOf(answer, hertz, words), spoken.close)
    .join('')
}

function meanOf({ meanAidedThreshold }: ScenarioAnswer, option: string, { spoken }: Words): string {
  if (meanAidedThreshold.kind === 'absent') return spoken.noMean(option)
  const { value, interval } = meanAidedThreshold
  return spoken.mean(option, value, interval)
}

function mostOf({ byFrequency }: ScenarioAnswer, hertz: Spoken['hertz'], { spoken }: Words): string {
  const changes = byFrequency.flatMap(({ frequency, aidedThreshold }) =>
    aidedThreshold.kind === 'change' ? [{ frequency, value: aidedThreshold.value }] : [],
  )
  const most = changes.toSorted((a, b) => Math.abs(b.value) - Math.abs(a.value))[0]
  return most === undefined || Math.abs(most.value) < 0.5 ? '' : spoken.most(most.value, hertz(most.frequency))
}

function wordsOf({ wordScores }: ScenarioAnswer, { spoken }: Words): string {
  const [first] = wordScores
  if (first?.score.kind !== 'change') return ''
  return spoken.words(first.score.value, first.score.interval)
}

/** Every frequency of low confidence is named, whether it has a number or none. */
function trustOf({ byFrequency }: ScenarioAnswer, hertz: Spoken['hertz'], { spoken }: Words): string {
  const low = byFrequency.filter(({ frequency }) => isLowConfidence(frequency))
  const withNumber = low.filter(({ aidedThreshold }) => aidedThreshold.kind === 'change')
  const without = low.filter(({ aidedThreshold }) => aidedThreshold.kind === 'absent')
  const named = (frequencies: typeof low) => frequencies.map(({ frequency }) => hertz(frequency))
  return (
    (withNumber.length > 0 ? spoken.lowConfidence(named(withNumber)) : '') +
    (without.length > 0 ? spoken.noNumber(named(without)) : '')
  )
}
