import { describe, expect, it } from 'vitest'
import { createThrottle, missesAllowed, windowMs } from '../../../server/http/throttle.ts'

describe('throttle of link attempts', () => {
  it('blocks an address after its misses, another not, and forgets after the window', () => {
    let now = 0
    const throttle = createThrottle(() => now)
    for (let miss = 0; miss < missesAllowed; miss++) {
      expect(throttle.isBlocked('192.0.2.7')).toBe(false)
      throttle.countMiss('192.0.2.7')
    }
    expect(throttle.isBlocked('192.0.2.7')).toBe(true)
    expect(throttle.isBlocked('192.0.2.8')).toBe(false)
    now = windowMs - 1
    expect(throttle.isBlocked('192.0.2.7')).toBe(true)
    now = windowMs
    expect(throttle.isBlocked('192.0.2.7')).toBe(false)
  })

  it('remembers a bounded number of addresses', () => {
    const throttle = createThrottle(() => 0)
    for (let miss = 0; miss < missesAllowed; miss++) throttle.countMiss('first')
    for (let index = 0; index < 10_000; index++) throttle.countMiss(`address ${index}`)
    expect(throttle.isBlocked('first')).toBe(false)
  })
})
