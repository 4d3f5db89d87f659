import * as z from 'zod/mini'
import { Ear, FrequencyHz } from '../units/frequencies.ts'
import { CouplingSite, DeviceClass, DeviceOption } from './classes.ts'
import { WordScoreAnchor } from './device-profile.ts'
import { Actuator } from './drives.ts'
import { EarChange } from './ear-changes.ts'
import { Patient, Scenario } from './scenario.ts'
import { SealedQuantity, SealedThreshold } from './sealed-numbers.ts'

const SealedOutcome = z.strictObject({
  deviceClass: DeviceClass,
  couplingSite: CouplingSite,
  gains: z.array(z.strictObject({ frequency: FrequencyHz, gainDb: z.number() })).check(z.maxLength(18)),
})

const SealedInputs = z.strictObject({
  ear: Ear,
  air: z.array(SealedThreshold).check(z.maxLength(18)),
  bone: z.array(SealedThreshold).check(z.maxLength(18)),
  soundField: z.optional(z.array(SealedThreshold).check(z.maxLength(18))),
  unaidedWords: z
    .array(
      z.strictObject({
        right: z.int().check(z.minimum(0)),
        items: z.int().check(z.minimum(1)),
        levelDbSpl: z.number(),
      }),
    )
    .check(z.maxLength(100)),
  /** the loss model that stands without a scenario */
  lossModel: z.string().check(z.minLength(1), z.maxLength(60)),
  otherEar: z.optional(SealedOutcome),
  /** ears of the team's series with this option that were learned from; their gains stay in their own cases */
  ownEars: z.int().check(z.minimum(0)),
})

/** Under what a forecast holds: the ear as it was found, what becomes of it, and what drives it. */
export const SealedScenario = z.strictObject({
  scenario: Scenario,
  actuator: Actuator,
  /** how the ear differs before anything of the scenario happens; absent: as the ears of the evidence */
  found: z.optional(z.array(EarChange).check(z.minLength(1), z.maxLength(12))),
  patient: z.optional(Patient),
})
export type SealedScenario = z.infer<typeof SealedScenario>

/**
 * What is sealed before the outcome is known: what went in, by which profile and model, and what came out. Thresholds in
 * dB HL, gains in dB, word scores in percent; each number a multiple of 0.01.
 */
export const SealedForecast = z.strictObject({
  modelVersion: z.int().check(z.minimum(1)),
  profile: z.strictObject({
    id: z.string().check(z.minLength(1), z.maxLength(60)),
    version: z.int().check(z.minimum(1)),
  }),
  option: DeviceOption,
  inputs: SealedInputs,
  /** absent: the ear as it was tested, coupling as in the evidence */
  scenario: z.optional(SealedScenario),
  byFrequency: z
    .array(z.strictObject({ frequency: FrequencyHz, aidedThreshold: SealedQuantity, effectiveGain: SealedQuantity }))
    .check(z.maxLength(18)),
  fourTone: z.strictObject({ aidedThreshold: SealedQuantity, effectiveGain: SealedQuantity }),
  wordScores: z
    .array(z.strictObject({ variant: WordScoreAnchor.shape.variant, score: SealedQuantity }))
    .check(z.maxLength(4)),
})
export type SealedForecast = z.infer<typeof SealedForecast>
