import { createHash } from 'node:crypto'
import { expect, it } from 'vitest'
import { forecastModelVersion } from '../../lib/forecast/sealed-forecast.ts'
import { createMiddleEar } from '../../lib/middle-ear/drive-change.ts'
import { inventedEars, optionsOfInvented } from '../fixtures/invented-ears.ts'

/**
 * What each version of the model says of the six invented ears, to 0.01. A sealed forecast is held against the model of its
 * version: whoever changes a number raises the version and adds a line.
 */
const fingerprints: Readonly<Record<number, string>> = {
  2: '95de535cbf714537',
}

it('raises its version when it says something else', () => {
  const middleEar = createMiddleEar()
  const said = inventedEars.map((ear) =>
    optionsOfInvented(ear, middleEar).map(({ option, outcome }) => {
      if (!outcome.ok) return [option, outcome.refusal]
      const { byFrequency, fourTone, wordScores, speech } = outcome.forecast
      return [option, byFrequency, fourTone, wordScores, speech]
    }),
  )
  const toHundredth = (key: string, value: unknown) =>
    key === 'basis' ? undefined : typeof value === 'number' ? Math.round(value * 100) / 100 : value
  const text = JSON.stringify(said, toHundredth)
  expect(createHash('sha256').update(text).digest('hex').slice(0, 16)).toBe(fingerprints[forecastModelVersion])
})
