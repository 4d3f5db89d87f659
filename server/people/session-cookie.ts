/** Browsers keep a cookie for 400 days at most (RFC 6265bis, section 5.5). */
const maxAgeSeconds = 400 * 24 * 3600

/** The session cookie: out of reach of scripts, never sent by another site's page, and bound to TLS where there is TLS. */
export interface SessionCookie {
  set(value: string): string
  clear(): string
  read(header: string | undefined): string | undefined
}

export function sessionCookie(overTls: boolean): SessionCookie {
  // The prefix makes browsers insist on Secure, Path=/ and no Domain, so that no neighbouring host can set it.
  const name = overTls ? '__Host-promontory' : 'promontory'
  const attributes = `Path=/; HttpOnly; SameSite=Strict${overTls ? '; Secure' : ''}`
  return {
    set: (value) => `${name}=${value}; Max-Age=${maxAgeSeconds}; ${attributes}`,
    clear: () => `${name}=; Max-Age=0; ${attributes}`,
    read: (header) => {
      for (const pair of (header ?? '').split(';')) {
        const [key, ...value] = pair.split('=')
        if (key?.trim() === name) return value.join('=').trim()
      }
      return undefined
    },
  }
}
