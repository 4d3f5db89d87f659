import type { IncomingHttpHeaders } from 'node:http'

/** @returns whether a request comes from a page of this server; a browser always says, so silence counts as no */
export type OriginCheck = (headers: IncomingHttpHeaders) => boolean

/**
 * Decides by Fetch Metadata (`Sec-Fetch-Site`) where it is sent, and by `Origin` always when it is there.
 * @param publicOrigin the ORIGIN setting; without it, the address that the request itself was sent to
 */
export function originCheck(publicOrigin: string | undefined): OriginCheck {
  return (headers) => {
    const { origin, host } = headers
    const site = headers['sec-fetch-site']
    if (site !== undefined && site !== 'same-origin') return false
    if (origin === undefined) return site === 'same-origin'
    return origin === (publicOrigin ?? `http://${host}`)
  }
}
