import { describe, expect, it } from 'vitest'
import { standardRange } from '../../../app/audiogram/geometry.ts'
import { type LayerSource, layerOf } from '../../../app/audiogram/layers.ts'
import { quietestHeight, stampsFor } from '../../../app/audiogram/stamps.ts'
import { audiogramOf } from '../../../lib/board/audiograms.ts'
import type { HearingTest } from '../../../lib/board/records/hearing-test.ts'
import { asDbHl } from '../../../lib/units/levels.ts'

const at = (level: number) => ({ kind: 'heard', level: asDbHl(level) }) as const
const silent = (limit: number) => ({ kind: 'no-response', limit: asDbHl(limit) }) as const
const refused = { kind: 'could-not-test' } as const

const test = (points: HearingTest['points'], rest: Partial<LayerSource> = {}): LayerSource => ({
  id: 't',
  ear: 'right',
  condition: 'unaided',
  state: 'current',
  points,
  ...rest,
})

describe('lines of a test', () => {
  // ASHA 1990: no line to or from a no-response symbol.
  it('never run to or from a point without response', () => {
    const points = {
      'air.unmasked.500': at(40),
      'air.unmasked.1000': at(50),
      'air.unmasked.2000': silent(120),
      'air.unmasked.4000': at(70),
      'air.unmasked.8000': at(80),
    }
    const runs = layerOf(test(points)).lines.map(({ places }) => places.map(({ frequency }) => frequency))
    expect(runs).toEqual([
      [500, 1000],
      [4000, 8000],
    ])
  })

  it('pass through the masked threshold where both were measured, and are cut where no test was possible', () => {
    const points = {
      'air.unmasked.500': at(40),
      'air.masked.500': at(55),
      'air.unmasked.1000': at(50),
      'air.masked.2000': refused,
      'air.unmasked.2000': at(50),
      'air.unmasked.4000': at(60),
    }
    const [line, ...others] = layerOf(test(points)).lines
    expect(line?.places.map(({ level }) => level)).toEqual([55, 50])
    expect(others).toEqual([])
  })
})

describe('audiogramOf', () => {
  it('lets the masked threshold stand for the unmasked one of the same frequency', () => {
    const audiogram = audiogramOf(
      { 'bone.unmasked.1000': at(5), 'bone.masked.1000': at(40), 'bone.unmasked.2000': at(10) },
      'bone',
    )
    expect(audiogram.get(1000)).toEqual({ kind: 'heard', level: 40, masked: true })
    expect(audiogram.get(2000)).toEqual({ kind: 'heard', level: 10, masked: false })
  })

  it('does not fall back to the unmasked level when masking was not possible', () => {
    const audiogram = audiogramOf({ 'bone.unmasked.1000': at(5), 'bone.masked.1000': refused }, 'bone')
    expect(audiogram.get(1000)).toEqual({ kind: 'could-not-test' })
  })
})

describe('stamps', () => {
  const right = layerOf(test({}))
  const oldLeft = layerOf(test({}, { id: 'l', ear: 'left', state: 'superseded' }))
  const wrongLeft = layerOf(test({}, { id: 'w', ear: 'left', state: 'entered-in-error' }))

  it('leave a chart of current tests alone', () => {
    expect(stampsFor([right, layerOf(test({}, { state: 'superseded' }), 'faint')])).toEqual({ partly: [] })
  })

  it('cover the whole chart when nothing on it is current', () => {
    expect(stampsFor([oldLeft]).whole).toBe('superseded')
    expect(stampsFor([oldLeft, wrongLeft]).whole).toBe('entered-in-error')
  })

  it('name the ear that is not current beside one that is', () => {
    expect(stampsFor([right, oldLeft])).toEqual({ partly: [{ ear: 'left', state: 'superseded' }] })
  })

  it('put the word where it hides the fewest signs', () => {
    const middle = layerOf(test({ 'air.unmasked.500': at(50), 'air.unmasked.1000': at(55) }))
    expect(quietestHeight([middle], standardRange)).not.toBe(0.5)
  })
})
