import { calendarDayOf } from '@/app/messages/moments.ts'
import type { Messages } from '@/app/messages/use-messages.ts'
import type { AsymmetryResult } from '@/lib/audiometry/asymmetry.ts'
import type { InnerEarForAge } from '@/lib/audiometry/expected-for-age.ts'
import { findingRules } from '@/lib/audiometry/findings.ts'
import { iso7029Editions } from '@/lib/audiometry/iso-7029.ts'
import type { ChangeVerdict, ThresholdChange } from '@/lib/audiometry/test-retest.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { ScoreTest } from '@/lib/board/records/speech-test.ts'
import { intervalMethods, wilsonInterval } from '@/lib/speech/binomial-interval.ts'
import type { EarIndex } from '@/lib/speech/ear-index.ts'
import type { ReceptionReading } from '../speech/reception-reading.ts'
import { scoreOf } from '../speech/score-of.ts'
import { averageLines } from './average-rows.ts'
import type { MeasureCell } from './measure-row.ts'

type Words = Messages['measures']

export function wordsCell(test: ScoreTest | undefined, words: Words): MeasureCell | undefined {
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

/** The threshold for speech, and how far the tones of the day agree with it. */
export function receptionCell(reading: ReceptionReading | undefined, words: Words): MeasureCell | undefined {
  if (reading === undefined) return undefined
  const { test, tones } = reading
  const { average, by, difference, agreement } = tones?.agreement ?? {}
  return {
    value: words.level(test.receptionThreshold, false),
    remark:
      difference === undefined || agreement === undefined
        ? undefined
        : words.reception.agreement(difference, agreement),
    how: [
      {
        name: words.howWords.tests,
        text: words.reception.test(words.materials[test.material], calendarDayOf(test.performedOn)),
      },
      ...(average === undefined || by === undefined ? [] : averageLines(average, words, words.reception.averages[by])),
      ...(difference === undefined || average?.value === undefined
        ? []
        : [
            {
              name: words.howWords.formula,
              text: words.minusFormula(
                words.level(test.receptionThreshold, false),
                words.level(average.value, false),
                words.reception.difference(difference),
              ),
            },
          ]),
    ],
    sources: difference === undefined ? [] : [findingRules['speech-poorer-than-tones']],
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
