import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { meanAirBoneGap } from '../../lib/audiometry/air-bone-gap.ts'
import { asymmetry, asymmetryRules } from '../../lib/audiometry/asymmetry.ts'
import { averageConventions, pureToneAverage } from '../../lib/audiometry/averages.ts'
import { changeBy, changeCriteria } from '../../lib/audiometry/change-criteria.ts'
import { effectiveGain, functionalGain } from '../../lib/audiometry/gains.ts'
import { gapClosure } from '../../lib/audiometry/gap-closure.ts'
import { gradeEar, gradeScales, gradeWho2021 } from '../../lib/audiometry/grades.ts'
import { maskingWindow } from '../../lib/audiometry/interaural-attenuation.ts'
import { ageNorm, iso7029FrequenciesHz, percentileOf, thresholdAtShare } from '../../lib/audiometry/iso-7029.ts'
import { reviewTest } from '../../lib/audiometry/review-test.ts'
import { thresholdChanges } from '../../lib/audiometry/test-retest.ts'
import type { TestedEar, TestedEars } from '../../lib/audiometry/tested-ear.ts'
import type { Audiogram, Threshold } from '../../lib/audiometry/thresholds.ts'
import { typeOfLoss } from '../../lib/audiometry/type-of-loss.ts'
import { audiometricFrequenciesHz, otherEar } from '../../lib/units/frequencies.ts'
import { asDbHl } from '../../lib/units/levels.ts'

const level = fc.integer({ min: -20, max: 130 }).map(asDbHl)
const threshold: fc.Arbitrary<Threshold> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: fc.constant('heard' as const), level, masked: fc.boolean() }) },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constant('no-response' as const), limit: level, masked: fc.boolean() }),
  },
  { weight: 1, arbitrary: fc.constant({ kind: 'could-not-test' as const }) },
)
const point = fc.tuple(fc.constantFrom(...audiometricFrequenciesHz), threshold)
const audiogram: fc.Arbitrary<Audiogram> = fc.array(point, { maxLength: 14 }).map((points) => new Map(points))
const heardEverywhere: fc.Arbitrary<Audiogram> = fc
  .array(level, { minLength: audiometricFrequenciesHz.length, maxLength: audiometricFrequenciesHz.length })
  .map((levels) => new Map(audiometricFrequenciesHz.map((f, i) => [f, heard(levels[i] ?? 0)])))

const heard = (at: number): Threshold => ({ kind: 'heard', level: asDbHl(at), masked: false })
const keysOf = <K extends string>(record: Readonly<Record<K, unknown>>) => Object.keys(record) as K[]
const averages = keysOf(averageConventions)
const scales = keysOf(gradeScales)

const ear: fc.Arbitrary<TestedEar> = fc.record(
  {
    air: audiogram,
    bone: audiogram,
    airBeforeMasking: audiogram,
    boneBeforeMasking: audiogram,
    airTransducer: fc.constantFrom('supra-aural' as const, 'circum-aural' as const, 'insert' as const),
    boneTransducer: fc.constantFrom('bone-mastoid' as const, 'bone-forehead' as const),
    speechReceptionThreshold: level,
    repeatAt1000: level,
    levelStep: fc.constantFrom(1 as const, 2 as const, 5 as const),
  },
  { requiredKeys: ['air', 'bone'] },
)
const ears: fc.Arbitrary<TestedEars> = fc.record({ right: ear, left: ear })

const reversed = (of: Audiogram): Audiogram => new Map([...of].toReversed())
const swapped = <T>({ right, left }: { right: T; left: T }) => ({ right: left, left: right })

/** Every number in a result is a number. Infinity is allowed only where a bound is open. */
function expectNoNaN(value: unknown): void {
  if (typeof value === 'number') expect(value).not.toBeNaN()
  else if (value instanceof Map) for (const inner of value.values()) expectNoNaN(inner)
  else if (typeof value === 'object' && value !== null) for (const inner of Object.values(value)) expectNoNaN(inner)
}

describe('averages', () => {
  it('do not depend on the order in which thresholds were entered', () => {
    fc.assert(
      fc.property(audiogram, fc.constantFrom(...averages), (of, id) => {
        expect(pureToneAverage(reversed(of), id)).toEqual(pureToneAverage(of, id))
      }),
    )
  })

  it('lie between the best and the worst level used, but for rounding up', () => {
    fc.assert(
      fc.property(audiogram, fc.constantFrom(...averages), (of, id) => {
        const { value, inputs, missing } = pureToneAverage(of, id)
        expect(value === undefined).toBe(missing.length > 0)
        if (value === undefined) return
        const used = inputs.map((input) => input.usedAs)
        expect(value).toBeGreaterThanOrEqual(Math.min(...used) - 1e-9)
        expect(value).toBeLessThanOrEqual(Math.ceil(Math.max(...used)) + 1e-9)
      }),
    )
  })

  it('never fall when one threshold gets worse, and neither does the grade', () => {
    fc.assert(
      fc.property(
        heardEverywhere,
        fc.constantFrom(...audiometricFrequenciesHz),
        fc.integer({ min: 0, max: 60 }),
        fc.constantFrom(...averages),
        fc.constantFrom(...scales),
        (of, frequency, worse, id, scale) => {
          const before = of.get(frequency)
          const raised = before?.kind === 'heard' ? Math.min(130, before.level + worse) : 130
          const poorer = new Map([...of, [frequency, heard(raised)]])
          expect(pureToneAverage(poorer, id).value ?? 0).toBeGreaterThanOrEqual(pureToneAverage(of, id).value ?? 0)
          expect(rank(poorer, scale)).toBeGreaterThanOrEqual(rank(of, scale))
        },
      ),
    )
  })

  function rank(of: Audiogram, id: (typeof scales)[number]): number {
    const { grade } = gradeEar(of, id)
    return gradeScales[id].grades.findIndex(({ name }) => name === grade)
  }
})

describe('two ears', () => {
  it('exchanged give the same person: WHO grade and asymmetry, with the poorer ear exchanged', () => {
    fc.assert(
      fc.property(audiogram, audiogram, fc.constantFrom(...keysOf(asymmetryRules)), (right, left, id) => {
        const straight = gradeWho2021({ right, left })
        const crossed = gradeWho2021({ right: left, left: right })
        expect({ grade: crossed.grade, unilateral: crossed.unilateral }).toEqual({
          grade: straight.grade,
          unilateral: straight.unilateral,
        })
        const one = asymmetry({ audiograms: { right, left } }, id)
        const other = asymmetry({ audiograms: { right: left, left: right } }, id)
        expect(other.outcome).toBe(one.outcome)
        expect(other.poorerEar).toBe(one.poorerEar && otherEar(one.poorerEar))
      }),
    )
  })

  it('exchanged exchange the sides of every finding', () => {
    fc.assert(
      fc.property(ears, fc.constantFrom('bsa-2018' as const, 'asha-2005' as const), (both, procedure) => {
        const straight = reviewTest({ ears: both, procedure })
        const crossed = reviewTest({ ears: swapped(both), procedure })
        const mirrored = crossed.map(({ where, ...rest }) => ({ ...rest, where: mirror(where) }))
        expect(mirrored).toHaveLength(straight.length)
        expect(mirrored).toEqual(expect.arrayContaining([...straight]))
      }),
      { numRuns: 60 },
    )
  })

  const mirror = (where: ReturnType<typeof reviewTest>[number]['where']) =>
    where.ear === undefined ? where : { ...where, ear: otherEar(where.ear) }
})

describe('any legal input', () => {
  it('gives no NaN in any measure', () => {
    fc.assert(
      fc.property(audiogram, audiogram, audiogram, audiogram, (a, b, c, d) => {
        const before = { air: a, bone: b }
        const after = { air: c, bone: d }
        expectNoNaN(averages.map((id) => pureToneAverage(a, id)))
        expectNoNaN(scales.map((id) => gradeEar(a, id)))
        expectNoNaN([typeOfLoss(before, 'set-1'), typeOfLoss(before, 'set-2')])
        expectNoNaN([gapClosure({ before, after }), meanAirBoneGap(before, 'pta3')])
        expectNoNaN([functionalGain({ unaided: a, aided: c }), effectiveGain({ bone: b, aided: c })])
        expectNoNaN([
          thresholdChanges('air', { before: a, after: c }),
          thresholdChanges('bone', { before: b, after: d }),
        ])
        expectNoNaN(keysOf(changeCriteria).map((id) => changeBy({ audiograms: { before: a, after: c } }, id)))
      }),
    )
  })

  it('gives findings without NaN, in an order that the order of entry does not change', () => {
    fc.assert(
      fc.property(ears, (both) => {
        const found = reviewTest({ ears: both })
        expectNoNaN(found)
        const { right, left } = both
        const entered = { right: { ...right, air: reversed(right.air), bone: reversed(right.bone) }, left }
        expect(
          reviewTest({ ears: entered }).map(({ id, where }) => [id, where.ear, where.route, where.frequency]),
        ).toEqual(found.map(({ id, where }) => [id, where.ear, where.route, where.frequency]))
      }),
      { numRuns: 60 },
    )
  })
})

describe('gains', () => {
  it('before and after exchanged turn the sign of a closure', () => {
    fc.assert(
      fc.property(heardEverywhere, heardEverywhere, heardEverywhere, heardEverywhere, (a, b, c, d) => {
        const before = { air: a, bone: b }
        const after = { air: c, bone: d }
        const { closure: there } = gapClosure({ before, after })
        const { closure: back } = gapClosure({ before: after, after: before })
        if (there?.kind !== 'exact' || back?.kind !== 'exact') throw new Error('every frequency was heard')
        expect(back.value + there.value).toBeCloseTo(0, 9)
      }),
    )
  })

  it('of a device that changes nothing are zero', () => {
    fc.assert(
      fc.property(heardEverywhere, (of) => {
        for (const gain of functionalGain({ unaided: of, aided: of }).byFrequency.values()) {
          expect(gain).toEqual({ kind: 'exact', value: 0 })
        }
      }),
    )
  })

  it('a test compared with itself is within test-retest error', () => {
    fc.assert(
      fc.property(heardEverywhere, fc.constantFrom('air' as const, 'bone' as const), (of, route) => {
        const verdicts = thresholdChanges(route, { before: of, after: of }).map(({ verdict }) => verdict)
        expect(new Set(verdicts)).toEqual(new Set(['within test-retest error']))
      }),
    )
  })
})

describe('age norms', () => {
  const edition = fc.constantFrom('2017' as const, '2000' as const)
  const group = fc.record({
    edition,
    sex: fc.constantFrom('male' as const, 'female' as const),
    age: fc.double({ min: 18, max: 80, noNaN: true }),
  })
  const frequency = fc.constantFrom(...iso7029FrequenciesHz)
  const share = fc.double({ min: 0.001, max: 0.999, noNaN: true })

  it('have thresholds that rise with the share', () => {
    fc.assert(
      fc.property(group, frequency, share, share, (of, at, a, b) => {
        const norm = ageNorm(of, at)
        const [low, high] = a <= b ? [a, b] : [b, a]
        expect(thresholdAtShare(norm, low)).toBeLessThanOrEqual(thresholdAtShare(norm, high) + 1e-9)
      }),
    )
  })

  it('have medians that rise with age', () => {
    fc.assert(
      fc.property(group, frequency, fc.double({ min: 18, max: 80, noNaN: true }), (of, at, otherAge) => {
        const [younger, older] = of.age <= otherAge ? [of.age, otherAge] : [otherAge, of.age]
        expect(ageNorm({ ...of, age: younger }, at).median).toBeLessThanOrEqual(
          ageNorm({ ...of, age: older }, at).median,
        )
      }),
    )
  })

  it('give back the share of a threshold within 0 to 100 %', () => {
    fc.assert(
      fc.property(group, frequency, level, (of, at, threshold) => {
        const percentile = percentileOf(ageNorm(of, at), threshold)
        expect(percentile).toBeGreaterThanOrEqual(0)
        expect(percentile).toBeLessThanOrEqual(100)
      }),
    )
  })
})

describe('masking window', () => {
  it('narrows as the masked ear gets worse', () => {
    fc.assert(
      fc.property(level, level, fc.integer({ min: 0, max: 40 }), (air, bone, worse) => {
        const width = (airNonTest: number) => {
          const { least, most } = maskingWindow({
            airNonTest,
            boneTest: bone,
            interauralAttenuation: 40,
            occlusionEffect: 0,
          })
          return most - least
        }
        expect(width(Math.min(130, air + worse))).toBeLessThanOrEqual(width(air))
      }),
    )
  })
})
