import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { Range } from './distribution.ts'

/** An aided threshold is not forecast to be better than this, dB HL. */
export const aidedFloorDbHl = 15

/** Spread of the mean of four frequencies, dB: middle of the working range. */
export const meanSpreadDb: Range & { readonly used: number } = { low: 6, high: 7, used: 6.5 }

/** Dynamic range wanted between bone-conduction threshold and maximum output, dB. */
export const headroomWantedDb = { least: 30, good: 35 } as const

/** Slope of the logistic at half of the words, percent per dB of mean bone-conduction threshold. */
export const wordSlope: Range & { readonly used: number } = { low: 3, high: 5, used: 4 }

/** Mean bone conduction up to which couplings did not differ, dB. Busch et al. 2016, abstract: "up to about 48". */
export const couplingsAlikeUpToDbHl = 48

/** So far to the better side of the half-right level the assumed curve is trusted, dB. */
export const farFromHalfDb = 20

/** Level of the words, dB SPL, at which the published word scores were taken. */
export const wordLevelDbSpl = 65

/** Words of a list, taken when the ear has no unaided list to take it from. */
export const assumedListLength = 20

/** 0 dB HL of speech in dB SPL. From memory, unconfirmed. */
export const speechZeroDbSpl = 20

/** A list counts for the best unaided score when it was given at least so far above the mean air conduction, dB. */
export const loudEnoughDb = 30

/** What is taken where a publication gives nothing. */
export const workingValues: EvidenceSource = {
  id: 'working-values',
  citation:
    'Working values: floor 15 dB HL; SD of a four-frequency mean 6 to 7 dB; dynamic range wanted at least 30, better 35 dB',
  status: 'approximate, from memory',
}

export const slopeAssumption: EvidenceSource = {
  id: 'word-score-slope',
  citation:
    'Slope of the word score against the mean bone-conduction threshold: not published with the half-right levels; a logistic with 3 to 5 % per dB at half is assumed',
  status: 'assumption',
}

export const listAssumption: EvidenceSource = {
  id: 'word-list',
  citation:
    'The best unaided score limits the forecast; it counts when the list was given at least 30 dB above the mean air-conduction threshold (0 dB HL of speech taken as 20 dB SPL). Without a list of this ear 20 words are taken',
  status: 'assumption',
}
