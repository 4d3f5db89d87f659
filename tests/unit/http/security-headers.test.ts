import { expect, it } from 'vitest'
import { pagePolicy, transportSecurity } from '../../../server/http/security-headers.ts'

it('TLS is insisted on for at least a year and for all names below (ASVS 5.0.0, 3.4.1)', () => {
  const [age, ...rest] = transportSecurity['Strict-Transport-Security'].split('; ')
  expect(Number(age?.replace('max-age=', ''))).toBeGreaterThanOrEqual(365 * 24 * 3600)
  expect(rest).toContain('includeSubDomains')
})

it('a page runs no script without the nonce, and nothing from elsewhere', () => {
  const policy = pagePolicy('abc', 'wss://board.example.org')
  expect(policy).toMatch(/script-src 'self' 'nonce-abc' 'strict-dynamic'(;|$)/)
  expect(policy).not.toMatch(/unsafe-eval|https?:|\*/)
  for (const directive of ["default-src 'self'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"])
    expect(policy.split('; ')).toContain(directive)
})
