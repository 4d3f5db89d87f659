import * as z from 'zod/mini'
import { FrequencyHz } from '../units/frequencies.ts'
import { ActuatorBody } from './actuator-body.ts'
import { CouplingSite, DeviceClass, sitesOf } from './classes.ts'
import { EvidenceSource, SourceId } from './evidence-source.ts'

const isAscending = (values: readonly number[]) =>
  values.every((value, index) => index === 0 || value > (values[index - 1] ?? value))

function ascendingByFrequency<Entry extends z.ZodMiniType<{ readonly frequency: FrequencyHz }>>(entry: Entry) {
  return z.array(entry).check(
    z.minLength(1),
    z.refine((entries) => isAscending(entries.map(({ frequency }) => frequency)), 'frequencies ascend, each once'),
  )
}

/** Mean and between-patient SD, in dB, of bone-conduction threshold minus aided threshold at one frequency. */
export const GainEntry = z.strictObject({
  frequency: FrequencyHz,
  meanDb: z.number().check(z.minimum(-60), z.maximum(60)),
  sdDb: z.number().check(z.positive(), z.maximum(30)),
})
export type GainEntry = z.infer<typeof GainEntry>

/** Group evidence for the effective gain; `n` is absent where the source does not say how many ears. */
export const GainEvidence = z.strictObject({
  source: SourceId,
  n: z.optional(z.int().check(z.positive())),
  entries: ascendingByFrequency(GainEntry),
})
export type GainEvidence = z.infer<typeof GainEvidence>

const outputRange = {
  lowDbHl: z.number().check(z.minimum(0), z.maximum(130)),
  highDbHl: z.number().check(z.minimum(0), z.maximum(130)),
}
const isOutputInOrder = (output: { readonly lowDbHl: number; readonly highDbHl: number }) =>
  output.lowDbHl <= output.highDbHl
const outOfOrder = { path: ['highDbHl'], message: 'not below lowDbHl' }

/**
 * Highest level that the device can produce, as equivalent dB HL: a working range over devices and ears, and where the
 * labelling says so, by frequency.
 */
export const MaximumOutput = z
  .strictObject({
    id: z.string().check(z.regex(/^[a-z][a-z-]{0,39}$/)),
    ...outputRange,
    byFrequency: z.optional(
      ascendingByFrequency(
        z.strictObject({ frequency: FrequencyHz, ...outputRange }).check(z.refine(isOutputInOrder, outOfOrder)),
      ),
    ),
    source: SourceId,
  })
  .check(z.refine(isOutputInOrder, outOfOrder))
export type MaximumOutput = z.infer<typeof MaximumOutput>

/** Mean bone-conduction threshold (dB HL) at which half of the monosyllables at 65 dB SPL are right. */
export const WordScoreAnchor = z.strictObject({
  variant: z.enum(['only', 'without-coupler', 'with-coupler']),
  boneDbHlAtHalf: z.number().check(z.minimum(0), z.maximum(120)),
  n: z.int().check(z.positive()),
  source: SourceId,
})
export type WordScoreAnchor = z.infer<typeof WordScoreAnchor>

/** What is known of driving at these sites. No anchor: no word score can be forecast there. */
export const Coupling = z.strictObject({
  sites: z.array(CouplingSite).check(z.minLength(1)),
  gain: GainEvidence,
  outputs: z.array(MaximumOutput).check(z.minLength(1)),
  wordAnchors: z.array(WordScoreAnchor),
})
export type Coupling = z.infer<typeof Coupling>

/** Worst bone-conduction threshold, dB HL, with which the labelling still takes an ear. */
export const CandidacyLimit = z.strictObject({
  frequency: FrequencyHz,
  worstBoneDbHl: z.number().check(z.minimum(0), z.maximum(120)),
})
export type CandidacyLimit = z.infer<typeof CandidacyLimit>

/**
 * In ears without an air-bone gap the device does about what a conventional aid does. `reference` is the site at which that
 * was found; another site differs from it by as much as their gains differ.
 */
export const WithoutGap = z.strictObject({
  like: z.literal('air-conduction-aid'),
  reference: CouplingSite,
  source: SourceId,
})

/** A device class as data: what it couples to, what was measured with it, and how well that is known. */
export const DeviceProfile = z
  .strictObject({
    id: z.string().check(z.regex(/^[a-z][a-z0-9-]{0,59}$/)),
    /** rises with every change of its numbers, so that a sealed forecast says which it stood on */
    version: z.int().check(z.minimum(1)),
    deviceClass: DeviceClass,
    candidacy: z.strictObject({
      remark: z.string().check(z.minLength(1), z.maxLength(600)),
      /** worst bone-conduction threshold that the labelling takes, by frequency */
      limits: z.optional(ascendingByFrequency(CandidacyLimit)),
      source: SourceId,
    }),
    couplings: z.array(Coupling).check(z.minLength(1)),
    /** what is known of ears without an air-bone gap; absent: the gains hold for every ear */
    withoutGap: z.optional(WithoutGap),
    /** what is implanted; absent where nothing is known here */
    bodies: z.optional(z.array(ActuatorBody).check(z.minLength(1))),
    sources: z.array(EvidenceSource).check(z.minLength(1)),
  })
  .check(
    z.superRefine((profile, context) => {
      const known = new Set(profile.sources.map((source) => source.id))
      for (const id of citedBy(profile))
        if (!known.has(id))
          context.addIssue({ code: 'custom', path: ['sources'], message: `no source with the id ${id}` })
      const sites = profile.couplings.flatMap((coupling) => coupling.sites)
      for (const site of sites)
        if (!sitesOf[profile.deviceClass].includes(site))
          context.addIssue({
            code: 'custom',
            path: ['couplings'],
            message: `this device class does not couple to ${site}`,
          })
      if (new Set(sites).size !== sites.length)
        context.addIssue({ code: 'custom', path: ['couplings'], message: 'a site stands in one coupling only' })
    }),
  )
export type DeviceProfile = z.infer<typeof DeviceProfile>

type Cited = Pick<DeviceProfile, 'candidacy' | 'couplings' | 'withoutGap' | 'bodies'>

function citedBy({ candidacy, couplings, withoutGap, bodies = [] }: Cited): readonly SourceId[] {
  const ofCouplings = couplings.flatMap(({ gain, outputs, wordAnchors }) => [gain, ...outputs, ...wordAnchors])
  const ofGap = withoutGap === undefined ? [] : [withoutGap]
  return [candidacy, ...ofCouplings, ...ofGap, ...bodies].map((cited) => cited.source)
}
