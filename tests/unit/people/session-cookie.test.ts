import { describe, expect, it } from 'vitest'
import { sessionCookie } from '../../../server/people/session-cookie.ts'

describe('session cookie', () => {
  it('is out of reach of scripts and of other sites', () => {
    const attributes = sessionCookie(false).set('value').split('; ').slice(1)
    expect(attributes).toEqual(expect.arrayContaining(['Path=/', 'HttpOnly', 'SameSite=Strict']))
    expect(attributes).not.toContain('Secure')
  })

  it('is bound to TLS and to this very host where there is TLS', () => {
    const cookie = sessionCookie(true).set('value')
    expect(cookie).toMatch(/^__Host-promontory=value; /)
    expect(cookie.split('; ')).toEqual(expect.arrayContaining(['Secure', 'Path=/']))
    expect(cookie).not.toMatch(/Domain/i)
  })

  it('is found among others', () => {
    const { read } = sessionCookie(false)
    expect(read('theme=dark; promontory=abc.d=; other=1')).toBe('abc.d=')
    expect(read('xpromontory=no')).toBeUndefined()
    expect(read('')).toBeUndefined()
    expect(read(undefined)).toBeUndefined()
  })

  it('is cleared by one that is over at once', () => {
    expect(sessionCookie(false).clear()).toMatch(/^promontory=; Max-Age=0; /)
  })
})
