import type { Messages } from '@/app/messages/use-messages.ts'
import { calendarDayOf } from '@/app/screen/formats.ts'
import type { AsymmetryResult } from '@/lib/audiometry/asymmetry.ts'
import type { InnerEarForAge } from '@/lib/audiometry/expected-for-age.ts'
import { iso7029Editions } from '@/lib/audiometry/iso-7029.ts'
import type { ChangeVerdict, ThresholdChange } from '@/lib/audiometry/test-retest.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { intervalMethods, wilsonInterval } from '@/lib/speech/binomial-interval.ts'
import type { EarIndex } from '@/lib/speech/ear-index.ts'
import { scoreOf } from '../speech/score-reading.ts'
import type { MeasureCell } from './measure-row.ts'

type Words = Messages['measures']

export function wordsCell(test: SpeechTest | undefined, words: Words): MeasureCell | undefined {
  if (test === undefined) return undefined
  const { proportion, low, high } = wilsonInterval(scoreOf(test))
  return {
    value: words.wordScore(proportion, low, high),
    remark: words.wordScoreRemark(test.speechLevel),
    how: [
      {
        name: words.howWords.inputs,
        text: words.wordScoreAt(test.speechLevel, test.right, test.items, calendarDayOf(test.performedOn)),
      },
    ],
    sources: [intervalMethods.wilson],
  }
}

export function indexCell(index: EarIndex | undefined, words: Words): MeasureCell | undefined {
  if (index === undefined) return undefined
  const { bands, beyondLimitHz, heldHz, conductivePart, importance, procedure, treatment } = index
  const audible = bands.map(({ frequencyHz, audibility }) => words.indexHow.band(frequencyHz, audibility))
  const upperBound = index.bound === 'upper-bound'
  return {
    value: words.index(index.index, upperBound),
    remark: upperBound ? words.indexHow.beyondLimit(beyondLimitHz) : undefined,
    how: [
      { name: words.howWords.formula, text: words.indexHow.formula },
      { name: words.howWords.audible, text: audible.join(', ') },
      { name: words.howWords.bone, text: words.indexHow.conductive[conductivePart] },
      ...(heldHz.length > 0 ? [{ name: words.howWords.missing, text: words.indexHow.held(heldHz) }] : []),
    ],
    sources: [procedure, importance, treatment],
  }
}

export function changeCell(
  changes: readonly ThresholdChange[] | undefined,
  previous: HearingTest | undefined,
  words: Words,
): MeasureCell | undefined {
  if (changes === undefined || previous === undefined || changes.length === 0) return undefined
  const at = (verdict: ChangeVerdict) =>
    changes.filter((change) => change.verdict === verdict).map(({ frequency }) => frequency)
  const parts = [
    at('worse').length > 0 ? words.change.worse(at('worse')) : [],
    at('better').length > 0 ? words.change.better(at('better')) : [],
    at('cannot tell').length > 0 ? words.change.unknown(at('cannot tell')) : [],
  ].flat()
  const since = words.change.since(calendarDayOf(previous.performedOn))
  return {
    value: parts.length === 0 ? words.change.within : parts.join('; '),
    remark: since,
    how: [
      {
        name: words.howWords.byFrequency,
        text: changes
          .map(({ frequency, change, verdict }) => words.change.at(frequency, change.low, change.high, verdict))
          .join('; '),
      },
      {
        name: words.howWords.range,
        text: changes
          .map(({ frequency, repeatability }) => words.change.range(frequency, repeatability.chanceRange))
          .join(', '),
      },
      { name: words.howWords.sign, text: words.change.sign },
    ],
    sources: changes.slice(0, 1).map(({ repeatability }) => repeatability),
  }
}

export function ageCell(innerEar: InnerEarForAge | undefined, words: Words): MeasureCell | undefined {
  if (innerEar === undefined) return undefined
  const { thresholds, group, ageOutside } = innerEar
  const edition = iso7029Editions[group.edition]
  if (ageOutside) return { value: words.age.outside(group.age), how: [], sources: [edition] }
  if (thresholds.length === 0) return undefined
  const at = (wanted: (typeof thresholds)[number]['verdict']) =>
    thresholds.filter(({ verdict }) => verdict === wanted).map(({ frequency }) => frequency)
  const parts = [
    at('worse than expected').length > 0 ? words.age.worse(at('worse than expected')) : [],
    at('better than expected').length > 0 ? words.age.better(at('better than expected')) : [],
    at('cannot tell').length > 0 ? words.age.unknown(at('cannot tell')) : [],
  ].flat()
  return {
    value: parts.length === 0 ? words.age.asExpected : parts.join('; '),
    how: [
      { name: words.howWords.formula, text: words.age.formula },
      {
        name: words.howWords.byFrequency,
        text: thresholds
          .map(({ frequency, expectedFrom, expectedTo, verdict }) =>
            words.age.at(frequency, expectedFrom, expectedTo, verdict),
          )
          .join('; '),
      },
    ],
    sources: [edition],
  }
}

/** All rules together: they do not agree, so each is named. */
export function asymmetryCell(results: readonly AsymmetryResult[], words: Words): MeasureCell {
  const met = results.filter(({ outcome }) => outcome === 'asymmetric')
  const undecided = results.every(({ outcome }) => outcome === 'not evaluable')
  const poorer = new Set(met.flatMap(({ poorerEar }) => poorerEar ?? []))
  const [ear] = poorer
  const value = undecided
    ? words.asymmetry.notEvaluable
    : met.length === 0
      ? words.asymmetry.notMet
      : words.asymmetry.met(poorer.size === 1 ? ear : undefined)
  return {
    value,
    remark: met.length > 0 ? words.asymmetry.count(met.length, results.length) : undefined,
    how: results.map(({ rule, outcome, missing, wordScoresMissing }) => ({
      name: words.asymmetry.rule(rule.id),
      text: [
        words.asymmetry.outcomes[outcome],
        ...(missing.length > 0 ? [words.asymmetry.missing(missing)] : []),
        ...(wordScoresMissing ? [words.asymmetry.wordScoresMissing] : []),
      ].join('; '),
    })),
    sources: results.map(({ rule }) => rule),
  }
}
