import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import type { Messages } from '@/app/messages/use-messages.ts'
import { expectedShares } from '@/lib/audiometry/expected-for-age.ts'
import {
  type AgeGroup,
  ageNorm,
  iso7029Editions,
  iso7029FrequenciesHz,
  thresholdAtShare,
} from '@/lib/audiometry/iso-7029.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { audibilityMap } from '@/lib/speech/audibility-map.ts'
import { type EarIndex, wordsAt65InQuiet } from '@/lib/speech/ear-index.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { indexFrom } from '../speech/index-from-tests.ts'
import { ageGroupOf } from './case-measures.ts'

export const overlayNames = ['age', 'speech', 'forecast'] as const
export type OverlayName = (typeof overlayNames)[number]

export interface OverlayLegend {
  readonly kind: LevelBand['kind']
  readonly ear?: Ear
  readonly text: string
}

/** What is laid over the chart with its legend, or why it cannot be. */
export type Overlay =
  | { readonly ok: true; readonly bands: readonly LevelBand[]; readonly legends: readonly OverlayLegend[] }
  | { readonly ok: false; readonly reason: string }

/** The age norm of air conduction: median and the range between the tenths. The same for both ears. */
export function ageOverlay(header: Pick<CaseHeader, 'ageYears' | 'sex'> | undefined, messages: Messages): Overlay {
  const words = messages.measures.overlays
  if (header?.ageYears === undefined) return { ok: false, reason: words.refused['age-not-stated'] }
  const group = ageGroupOf(header)
  if (group === undefined) return { ok: false, reason: words.refused['sex-not-stated'] }
  const { youngest, oldest } = iso7029Editions[group.edition]
  if (group.age < youngest || group.age > oldest)
    return { ok: false, reason: words.refused['age-outside'](group.age, youngest, oldest) }
  const of = [group.edition, words.sex[group.sex], group.age] as const
  return {
    ok: true,
    bands: [{ id: 'age', kind: 'age', limits: ageLimits(group) }],
    legends: [{ kind: 'age', text: words.ageLegend(...of) }],
  }
}

const ageLimits = (group: AgeGroup): LevelBand['limits'] =>
  iso7029FrequenciesHz.map((hz) => {
    const norm = ageNorm(group, hz)
    return {
      hz,
      low: thresholdAtShare(norm, expectedShares.best),
      middle: norm.median,
      high: thresholdAtShare(norm, expectedShares.worst),
    }
  })

/** Where speech lies, and for each ear on the chart the part of it that is heard. */
export function speechOverlay(
  shown: readonly HearingTest[],
  tests: readonly HearingTest[],
  messages: Messages,
): Overlay {
  const words = messages.measures.overlays
  const heard = shown.flatMap((test) => {
    const index = indexFrom(test, tests, wordsAt65InQuiet)
    return index === undefined ? [] : [{ test, index }]
  })
  const [first] = heard
  if (first === undefined) return { ok: false, reason: words.refused['no-thresholds'] }
  const { peaks } = speechLimits(first.index)
  return {
    ok: true,
    bands: [
      { id: 'speech', kind: 'speech', limits: peaks },
      ...heard.map(({ test, index }) => ({
        id: `heard.${test.ear}`,
        kind: 'heard' as const,
        ear: test.ear,
        limits: speechLimits(index).heard,
      })),
    ],
    legends: [
      { kind: 'speech', text: words.speechLegend },
      ...heard.map(({ test, index }) => ({
        kind: 'heard' as const,
        ear: test.ear,
        text: words.heardLegend(
          test.ear,
          messages.words.condition[test.condition].toLowerCase(),
          index.index,
          index.bound === 'upper-bound',
        ),
      })),
    ],
  }
}

/** Speech between its weakest part and its peaks; of that, what lies beyond the threshold. */
function speechLimits(index: EarIndex): Readonly<Record<'peaks' | 'heard', LevelBand['limits']>> {
  const bands = audibilityMap(index)
  return {
    peaks: bands.map(({ frequencyHz, weakestDbHl, peaksDbHl }) => ({
      hz: frequencyHz,
      low: weakestDbHl,
      high: peaksDbHl,
    })),
    heard: bands.map(({ frequencyHz, weakestDbHl, peaksDbHl, limitDbHl }) => ({
      hz: frequencyHz,
      low: Math.min(peaksDbHl, Math.max(weakestDbHl, limitDbHl)),
      high: peaksDbHl,
    })),
  }
}
