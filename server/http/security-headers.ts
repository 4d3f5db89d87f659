/** What every answer carries, pages and API alike. */
export const staticHeaders: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  // A path can name a case or carry an invitation: other sites learn nothing of it.
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), payment=(), usb=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Frame-Options': 'DENY',
}

/** HTTP Strict Transport Security (RFC 6797) for a year and all names below, where people come over TLS. */
export const transportSecurity = {
  'Strict-Transport-Security': `max-age=${365 * 24 * 3600}; includeSubDomains`,
} as const

/**
 * Content Security Policy of a page. Scripts need the request's nonce; styles may be inline, because editor and
 * charts set them from scripts.
 * @param socketSources where the sync socket may connect to, beside 'self'
 */
export function pagePolicy(nonce: string, socketSources: string): string {
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    `connect-src 'self' ${socketSources}`,
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/** Policy of an API answer, which is never a page. */
export const apiPolicy = "default-src 'none'; frame-ancestors 'none'"

/** Policy while developing: hot reload evaluates code, so scripts are left alone. */
export const developmentPolicy = "object-src 'none'; base-uri 'none'; frame-ancestors 'none'"
