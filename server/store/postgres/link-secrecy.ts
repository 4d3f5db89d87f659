/** What is wrong with an address that does not say it; the address itself is a secret and not repeated. */
export const openLink =
  'leads to another computer and does not say how the link is kept: end it with ?sslmode=verify-full, or with ?sslmode=disable on a network that is yours alone.'

const here = /^(localhost|\[?::1\]?|127(\.\d{1,3}){3})$/

/**
 * Whether an address of PostgreSQL leads to this computer, or says how the link is kept. Patients' data goes over it: on a
 * network, whether in the clear has to be somebody's decision. `host` in the query goes before the host of the address.
 */
export function saysHowItIsKept(address: string): boolean {
  if (!URL.canParse(address)) return true // refused for that
  const { hostname, searchParams } = new URL(address)
  const host = searchParams.get('host') || hostname
  return host.startsWith('/') || here.test(host) || Boolean(searchParams.get('sslmode'))
}
