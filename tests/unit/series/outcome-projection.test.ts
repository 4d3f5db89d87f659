import { describe, expect, it } from 'vitest'
import type { Threshold } from '../../../lib/audiometry/thresholds.ts'
import type { CaseOutcome } from '../../../lib/interchange/outcome-columns.ts'
import { seriesCaseFrom, thresholdsFrom, thresholdsText } from '../../../lib/interchange/outcome-columns.ts'
import type { FrequencyHz } from '../../../lib/units/frequencies.ts'
import { asDbHl } from '../../../lib/units/levels.ts'
import { courseCase } from '../../../server/demo/course-case.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const now = new Date('2026-05-04T10:00:00.000Z')

/** What the demo case gives, taken from what it stores. */
async function outcomeOfDemo(): Promise<CaseOutcome> {
  const saved: CaseOutcome[] = []
  const store = {
    createCase: async () => undefined,
    append: async () => [],
    saveProjection: async () => undefined,
    saveOutcome: async (_: string, outcome: CaseOutcome) => void saved.push(outcome),
  }
  await courseCase(now).store(store as never, { programme: 'demo', label: 'Curlew', rank: 'a0' })
  const [outcome] = saved
  if (outcome === undefined) throw new Error('the demo case gave no outcome')
  return outcome
}

describe('the outcome of a case', () => {
  it('has the planned ear before its operation and at every held visit, in the order of time', async () => {
    const outcome = await outcomeOfDemo()
    expect(outcome).toMatchObject({
      patient: 'Curlew',
      ear: 'left',
      couplingSite: 'incus-body',
      pathology: 'tympanosclerosis',
      tags: 'attic fixation',
    })
    expect(outcome.visits[0]).toMatchObject({ visit: '', occasion: 'before', aided: '' })
    expect(outcome.visits.slice(1).map(({ occasion }) => occasion)).toEqual(['first-fitting', '3-months', '12-months'])
    const days = outcome.visits.map(({ heldOn }) => heldOn)
    expect(days).toEqual(days.toSorted())
    expect(outcome.visits[1]?.aided).toMatch(/^\d+=-?\d+( \d+[=>]-?\d+)*$/)
  })

  it('carries the forecast that stood at the operation', async () => {
    const outcome = await outcomeOfDemo()
    const found = seriesCaseFrom('demo', outcome)
    expect(found?.forecast).toMatchObject({ kind: 'estimate' })
    expect(found?.tags).toEqual(['attic fixation'])
    expect(found?.patient).toBe('curlew')
  })

  it('is nothing to a series while no ear is named', async () => {
    expect(seriesCaseFrom('x', { ...(await outcomeOfDemo()), ear: null })).toBeUndefined()
  })
})

describe('thresholds as text', () => {
  it('tells a level from no response, and leaves out what could not be tested', () => {
    const given = new Map<FrequencyHz, Threshold>([
      ...audiogram({ 500: 35, 1000: -5 }),
      [2000, { kind: 'could-not-test' }],
      [8000, { kind: 'no-response', limit: asDbHl(110), masked: true }],
    ])
    expect(thresholdsText(given)).toBe('500=35 1000=-5 8000>110')
    expect(thresholdsText(thresholdsFrom('500=35 1000=-5 8000>110'))).toBe('500=35 1000=-5 8000>110')
    expect(thresholdsText(undefined)).toBe('')
  })

  it.each(['500', '=35', '501=35', '500=x', '500=35  1000=40'])('refuses "%s" with what it should be', (text) => {
    expect(() => thresholdsFrom(text)).toThrow(/has to be like 500=35/)
  })
})
