import type { GainEntry } from '../../devices/device-profile.ts'
import type { EvidenceSource } from '../../devices/evidence-source.ts'
import type { FrequencyHz } from '../../units/frequencies.ts'

/** Effective-gain working means and their spread; the same table for every class. */
export const gainTable: EvidenceSource = {
  id: 'effective-gain-working-means',
  citation:
    'Working means of effective gain by class and site with their SD between patients; number of ears not known. A review of 31 articles (Otol Neurotol 2019;40:430-435) agrees in kind: targets mostly missed, best at 2 kHz, centres differ more than device types',
  status: 'approximate, from memory',
}

export const outputTable: EvidenceSource = {
  id: 'maximum-output-working-ranges',
  citation: 'Working ranges of maximum output in dB HL by device class; labelling of the single device prevails',
  status: 'approximate, from memory',
}

export const gainFrequenciesHz = [500, 1000, 2000, 3000, 4000] as const satisfies readonly FrequencyHz[]

/** SD of each entry between patients, dB, at the frequencies of the table; one row for all classes. */
const sdBetweenPatientsDb = [9, 8, 8, 9, 10] as const

type Row = readonly [number, number, number, number, number]

/** One row of the table of effective gain: means in dB at 500, 1000, 2000, 3000 and 4000 Hz. */
export const gainRow = (meansDb: Row): { source: string; entries: GainEntry[] } => ({
  source: gainTable.id,
  entries: gainFrequenciesHz.map((frequency, index) => ({
    frequency,
    meanDb: meansDb[index] ?? Number.NaN,
    sdDb: sdBetweenPatientsDb[index] ?? Number.NaN,
  })),
})
