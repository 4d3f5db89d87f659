import type { IncomingHttpHeaders, IncomingMessage } from 'node:http'

/** Where requests come from, and what the outside calls this server. */
export interface Origins {
  /**
   * Whether a request that changes something comes from a page of this server: by Fetch Metadata (`Sec-Fetch-Site`)
   * where it is sent, by `Origin` where that is. A browser sends at least one, so silence counts as no.
   */
  mayChange(headers: IncomingHttpHeaders): boolean
  /** Whether a socket may be opened: by a page of this server, or by a program that is no browser and names none. */
  mayConnect(headers: IncomingHttpHeaders): boolean
  /** Sources of the sync socket for the page's policy: some browsers do not count them as 'self'. */
  socketSources(headers: IncomingHttpHeaders): string
  /** Address that a request came from: the one that the proxy saw, where there is a proxy. */
  addressOf(request: IncomingMessage): string
}

/** @param publicOrigin the ORIGIN setting, given when people come through a proxy; undefined when they come directly */
export function originsOf(publicOrigin: string | undefined): Origins {
  const isOurs = (origin: string, host: string | undefined) =>
    publicOrigin === undefined ? hostOf(origin) === host : origin === publicOrigin
  return {
    mayChange: ({ origin, host, 'sec-fetch-site': site }) => {
      if (site !== undefined && site !== 'same-origin') return false
      return origin === undefined ? site === 'same-origin' : isOurs(origin, host)
    },
    mayConnect: ({ origin, host }) => origin === undefined || isOurs(origin, host),
    socketSources: ({ host }) => socketSources(publicOrigin === undefined ? host : hostOf(publicOrigin)),
    addressOf: ({ headers, socket }) => {
      const seenByProxy =
        publicOrigin === undefined
          ? undefined
          : String(headers['x-forwarded-for'] ?? '')
              .split(',')
              .at(-1)
      return seenByProxy?.trim() || (socket.remoteAddress ?? '')
    },
  }
}

const hostOf = (origin: string): string | undefined => (URL.canParse(origin) ? new URL(origin).host : undefined)

/** A host that could break out of the policy's header is left out. */
const socketSources = (host: string | undefined): string =>
  host !== undefined && /^[\w.:[\]-]+$/.test(host) ? `ws://${host} wss://${host}` : ''
