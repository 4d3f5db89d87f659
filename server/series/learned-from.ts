import type { DeviceOption } from '../../lib/devices/classes.ts'
import { couplingAt } from '../../lib/forecast/device-profile.ts'
import { deviceProfiles } from '../../lib/forecast/profiles.ts'
import { beyondGroup } from '../../lib/forecast/without-gap.ts'
import { type ExperienceAnswer, mostLearned } from '../../lib/interchange/experience.ts'
import type { SeriesCase } from '../../lib/outcomes/series-case.ts'
import { earResult } from '../../lib/outcomes/series-result.ts'
import { onePerPatient } from '../../lib/outcomes/series-selection.ts'
import { inChunks } from './turns.ts'

type LearnedEar = ExperienceAnswer['ears'][number]

/** Ears looked at before edits and their answers have their turn: one is up to a tenth of a millisecond. */
const chunk = 20

/**
 * Gains at the latest visit that a forecast may learn from: one ear a patient, those operated on last of each option, in an
 * order that tells nothing of whose they are.
 * @param leftOut pseudonym in small letters of the patient whom the forecast is about
 */
export async function learnedFrom(
  cases: readonly SeriesCase[],
  leftOut: string | undefined,
): Promise<readonly LearnedEar[]> {
  const counts = new Map<string, number>()
  const isWanted = ({ deviceClass, couplingSite }: DeviceOption): boolean => {
    const option = `${deviceClass} ${couplingSite}`
    const before = counts.get(option) ?? 0
    counts.set(option, before + 1)
    return before < mostLearned
  }
  const latestFirst = onePerPatient(cases.filter(({ patient }) => patient !== leftOut)).toSorted((a, b) =>
    (b.operatedOn ?? '').localeCompare(a.operatedOn ?? ''),
  )
  const ears = await inChunks(latestFirst, chunk, (each) => learnedEar(each, isWanted))
  return ears
    .flatMap((ear) => ear ?? [])
    .map((ear) => ({ ear, text: JSON.stringify(ear) }))
    .toSorted((a, b) => a.text.localeCompare(b.text))
    .map(({ ear }) => ear)
}

/** @param isWanted is asked once for each ear that has a gain */
function learnedEar(of: SeriesCase, isWanted: (option: DeviceOption) => boolean): LearnedEar | undefined {
  const { deviceClass, couplingSite } = of
  if (deviceClass === null || couplingSite === null) return undefined
  const { gainDb } = earResult(of, 'latest')
  if (gainDb.size === 0 || !isWanted({ deviceClass, couplingSite })) return undefined
  const beyond = beyondOf(of, { deviceClass, couplingSite })
  const gains = [...gainDb].map(([frequency, gain]) => ({
    frequency,
    gainDb: gain,
    beyondGroupDb: beyond?.at(frequency).shiftDb ?? 0,
  }))
  return { deviceClass, couplingSite, gains: gains.toSorted((a, b) => a.frequency - b.frequency) }
}

/** What the ear was expected to differ by from the group of the evidence, by the tests before its operation. */
function beyondOf({ visits }: SeriesCase, { deviceClass, couplingSite }: DeviceOption) {
  const before = visits.find(({ occasion }) => occasion === 'before')
  const profile = deviceProfiles.find((each) => each.deviceClass === deviceClass)
  const coupling = profile && couplingAt(profile, couplingSite)
  if (before === undefined || profile === undefined || coupling === undefined) return undefined
  return beyondGroup(profile, coupling, { air: before.air, bone: before.bone, soundField: undefined, unaidedWords: [] })
}
