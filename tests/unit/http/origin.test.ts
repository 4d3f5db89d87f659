import { IncomingMessage } from 'node:http'
import { Socket } from 'node:net'
import { describe, expect, it } from 'vitest'
import { originsOf } from '../../../server/http/origin.ts'

const direct = originsOf(undefined)
const proxied = originsOf('https://board.example.org')
const host = '127.0.0.1:3000'
const own = 'http://127.0.0.1:3000'

describe('origin of a change', () => {
  it.each([
    ['own page', { host, origin: own, 'sec-fetch-site': 'same-origin' }, true],
    ['own page, browser without Fetch Metadata', { host, origin: own }, true],
    ['own page, browser without Origin', { host, 'sec-fetch-site': 'same-origin' }, true],
    ['own page behind TLS that is not known of', { host, origin: `https://${host}` }, true],
    ['another site', { host, origin: 'https://evil.example', 'sec-fetch-site': 'cross-site' }, false],
    ['another site, browser without Fetch Metadata', { host, origin: 'https://evil.example' }, false],
    ['another port of this computer', { host, origin: 'http://127.0.0.1:4000', 'sec-fetch-site': 'same-site' }, false],
    ['a sandboxed frame', { host, origin: 'null' }, false],
    ['an address typed by hand', { host, 'sec-fetch-site': 'none' }, false],
    ['own Origin, but Fetch Metadata says otherwise', { host, origin: own, 'sec-fetch-site': 'cross-site' }, false],
    ['nobody says', { host }, false],
  ])('%s', (_, headers, allowed) => {
    expect(direct.mayChange(headers)).toBe(allowed)
  })

  it('behind a proxy is the public one, whatever Host says', () => {
    expect(proxied.mayChange({ host, origin: 'https://board.example.org' })).toBe(true)
    expect(proxied.mayChange({ host, origin: own })).toBe(false)
    expect(proxied.mayChange({ host, origin: 'http://board.example.org' })).toBe(false)
  })
})

describe('origin of a socket', () => {
  it('is our page, or a program that names none', () => {
    expect(direct.mayConnect({ host, origin: own })).toBe(true)
    expect(direct.mayConnect({ host })).toBe(true)
    expect(direct.mayConnect({ host, origin: 'http://evil.example' })).toBe(false)
    expect(proxied.mayConnect({ host, origin: 'https://board.example.org' })).toBe(true)
    expect(proxied.mayConnect({ host, origin: own })).toBe(false)
  })
})

describe('socket sources of a policy', () => {
  it('name the host, and nothing that could end the header or add a source', () => {
    expect(direct.socketSources({ host })).toBe('ws://127.0.0.1:3000 wss://127.0.0.1:3000')
    expect(direct.socketSources({ host: "x; script-src 'unsafe-inline'" })).toBe('')
    expect(direct.socketSources({})).toBe('')
    expect(proxied.socketSources({ host })).toContain('wss://board.example.org')
  })
})

describe('address of a request', () => {
  const from = (forwarded: string | undefined) => {
    const request = new IncomingMessage(new Socket())
    if (forwarded !== undefined) request.headers['x-forwarded-for'] = forwarded
    return request
  }

  it('is what the proxy itself saw, never what the client says it is', () => {
    expect(proxied.addressOf(from('6.6.6.6, 192.0.2.7'))).toBe('192.0.2.7')
    expect(direct.addressOf(from('6.6.6.6'))).toBe('')
  })
})
