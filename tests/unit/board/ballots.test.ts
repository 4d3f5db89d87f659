import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ballotFault, countBallots } from '../../../lib/board/ballots.ts'
import { Vote } from '../../../lib/board/records/vote.ts'
import { sampleRecord } from '../../support/sample-records.ts'

const vote = { options: ['a', 'b', 'c'], asksConfidence: true }

describe('counting', () => {
  it('gives counts in the order of the options, with the spread of confidence where some was given', () => {
    const ballots = [
      { option: 2, confidence: 90 },
      { option: 2 },
      { option: 0, confidence: 60 },
      { option: 2, confidence: 70 },
    ]
    expect(countBallots(vote, ballots, 4)).toEqual({
      options: [
        { votes: 1, confidence: { low: 60, median: 60, high: 60 } },
        { votes: 0 },
        { votes: 3, confidence: { low: 70, median: 80, high: 90 } },
      ],
      confidence: { low: 60, median: 70, high: 90 },
      notVoted: 4,
    })
  })

  it('counts every ballot once, whoever cast it in whatever order, and parses as the result of a vote', () => {
    const ballot = fc.record(
      { option: fc.integer({ min: 0, max: 2 }), confidence: fc.integer({ min: 50, max: 100 }) },
      { requiredKeys: ['option'] },
    )
    fc.assert(
      fc.property(fc.array(ballot, { maxLength: 40 }), fc.nat(300), (ballots, notVoted) => {
        const counted = countBallots(vote, ballots, notVoted)
        expect(counted.options.reduce((sum, { votes }) => sum + votes, 0)).toBe(ballots.length)
        expect(countBallots(vote, [...ballots].reverse(), notVoted)).toEqual(counted)
        const result = { by: 'p-mod', at: '2026-05-04T10:00:00.000Z', ...counted }
        const record = { ...sampleRecord('votes', 'v', 'p-mod'), options: vote.options, result }
        expect(Vote.safeParse(record).success).toBe(true)
      }),
    )
  })

  it('refuses a ballot that does not fit, and a number that is no count', () => {
    expect(ballotFault(vote, { option: 3 })).toBe('no-such-option')
    expect(ballotFault({ ...vote, asksConfidence: false }, { option: 0, confidence: 50 })).toBe('confidence-not-asked')
    expect(() => countBallots(vote, [{ option: 3 }], 0)).toThrow(RangeError)
    expect(() => countBallots(vote, [], -1)).toThrow(RangeError)
  })
})

describe('a vote', () => {
  it('has two to six options, each different, and a count for each of them', () => {
    const parses = (patch: object) => Vote.safeParse({ ...sampleRecord('votes', 'v', 'p-mod'), ...patch }).success
    const result = { by: 'p-mod', at: '2026-05-04T10:00:00.000Z', options: [{ votes: 1 }], notVoted: 0 }
    expect(parses({})).toBe(true)
    expect(parses({ options: ['one'] })).toBe(false)
    expect(parses({ options: ['one', 'one'] })).toBe(false)
    expect(parses({ options: ['1', '2', '3', '4', '5', '6', '7'] })).toBe(false)
    expect(parses({ result })).toBe(false)
  })
})
