import { describe, expect, it } from 'vitest'
import { type LinkLoss, nextLoss } from '../../../app/screen/link-loss.ts'

/** Goes through the states of the link, one minute each. */
function lossAfter(...states: ('connecting' | 'live' | 'offline' | 'store-away')[]): LinkLoss {
  let loss: LinkLoss = { state: 'linking' }
  for (const [minute, state] of states.entries()) loss = nextLoss(loss, { state }, () => `10:0${minute}`)
  return loss
}

describe('the loss of the link', () => {
  it('is not lost before the page was ever linked', () => {
    expect(lossAfter('connecting')).toEqual({ state: 'linking' })
  })

  it('counts from the moment when the link went, not from the last try', () => {
    expect(lossAfter('connecting', 'live', 'offline', 'connecting', 'offline')).toEqual({
      state: 'lost',
      since: '10:02',
      why: 'link',
    })
    expect(lossAfter('live', 'connecting', 'connecting')).toEqual({ state: 'lost', since: '10:01', why: 'link' })
  })

  it('names a server that can store nothing, and goes on from when it began', () => {
    expect(lossAfter('live', 'store-away', 'store-away')).toEqual({ state: 'lost', since: '10:01', why: 'store' })
    expect(lossAfter('live', 'offline', 'store-away')).toEqual({ state: 'lost', since: '10:01', why: 'store' })
    expect(lossAfter('live', 'store-away', 'offline')).toEqual({ state: 'lost', since: '10:01', why: 'link' })
    expect(lossAfter('store-away')).toEqual({ state: 'lost', since: '10:00', why: 'store' })
  })

  it('is over when the board is live again', () => {
    expect(lossAfter('live', 'offline', 'connecting', 'live')).toEqual({ state: 'live' })
  })

  it('says why somebody is not admitted', () => {
    expect(nextLoss({ state: 'live' }, { state: 'refused-entry', reason: 'withdrawn' }, () => '')).toEqual({
      state: 'not-admitted',
      reason: 'withdrawn',
    })
  })
})
