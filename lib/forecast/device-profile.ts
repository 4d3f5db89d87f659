import { z } from 'zod'
import { CouplingSite, DeviceClass, sitesOf } from '../devices/classes.ts'
import { FrequencyHz } from '../units/frequencies.ts'
import { EvidenceSource, SourceId } from './evidence.ts'

const isAscending = (values: readonly number[]) =>
  values.every((value, index) => index === 0 || value > (values[index - 1] ?? value))

/** Mean and between-patient SD, in dB, of bone-conduction threshold minus aided threshold at one frequency. */
export const GainEntry = z.strictObject({
  frequency: FrequencyHz,
  meanDb: z.number().min(-60).max(60),
  sdDb: z.number().positive().max(30),
})
export type GainEntry = z.infer<typeof GainEntry>

/** Group evidence for the effective gain; `n` is absent where the source does not say how many ears. */
export const GainEvidence = z.strictObject({
  source: SourceId,
  n: z.int().positive().optional(),
  entries: z
    .array(GainEntry)
    .min(1)
    .refine((entries) => isAscending(entries.map((entry) => entry.frequency)), 'frequencies ascend, each once'),
})
export type GainEvidence = z.infer<typeof GainEvidence>

/** Highest level that the device can produce, as equivalent dB HL: a working range over devices and ears. */
export const MaximumOutput = z
  .strictObject({
    id: z.string().regex(/^[a-z][a-z-]{0,39}$/),
    lowDbHl: z.number().min(0).max(130),
    highDbHl: z.number().min(0).max(130),
    source: SourceId,
  })
  .refine((output) => output.lowDbHl <= output.highDbHl, { path: ['highDbHl'], message: 'not below lowDbHl' })
export type MaximumOutput = z.infer<typeof MaximumOutput>

/** Mean bone-conduction threshold (dB HL) at which half of the monosyllables at 65 dB SPL are right. */
export const WordScoreAnchor = z.strictObject({
  variant: z.enum(['only', 'without-coupler', 'with-coupler']),
  boneDbHlAtHalf: z.number().min(0).max(120),
  n: z.int().positive(),
  source: SourceId,
})
export type WordScoreAnchor = z.infer<typeof WordScoreAnchor>

/** What is known of driving at these sites. No anchor: no word score can be forecast there. */
export const Coupling = z.strictObject({
  sites: z.array(CouplingSite).min(1),
  gain: GainEvidence,
  outputs: z.array(MaximumOutput).min(1),
  wordAnchors: z.array(WordScoreAnchor),
})
export type Coupling = z.infer<typeof Coupling>

/** A device class as data: what it couples to, what was measured with it, and how well that is known. */
export const DeviceProfile = z
  .strictObject({
    id: z.string().regex(/^[a-z][a-z0-9-]{0,59}$/),
    deviceClass: DeviceClass,
    candidacy: z.strictObject({ remark: z.string().min(1).max(600), source: SourceId }),
    couplings: z.array(Coupling).min(1),
    sources: z.array(EvidenceSource).min(1),
  })
  .superRefine((profile, context) => {
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
  })
export type DeviceProfile = z.infer<typeof DeviceProfile>

type Cited = Pick<DeviceProfile, 'candidacy' | 'couplings'>

function citedBy({ candidacy, couplings }: Cited): readonly SourceId[] {
  const ofCouplings = couplings.flatMap(({ gain, outputs, wordAnchors }) => [gain, ...outputs, ...wordAnchors])
  return [candidacy, ...ofCouplings].map((cited) => cited.source)
}

/** @throws RangeError when the profile has no such source, which its schema excludes */
export function sourceOf({ id, sources }: Pick<DeviceProfile, 'id' | 'sources'>, source: SourceId): EvidenceSource {
  const found = sources.find((candidate) => candidate.id === source)
  if (found === undefined) throw new RangeError(`profile ${id} has no source ${source}`)
  return found
}

export const couplingAt = (profile: DeviceProfile, site: CouplingSite): Coupling | undefined =>
  profile.couplings.find((coupling) => coupling.sites.includes(site))
