/** A mark in the address of a page, so that a reload and a link that was sent show the same: `?learning=on`, `?visit=...`. */
export const markInAddress = (name: string): string | undefined =>
  new URLSearchParams(location.search).get(name) ?? undefined

/** Writes it without a new entry in the history: going back leaves the page, as before. @param value undefined takes it away */
export function putMarkInAddress(name: string, value: string | undefined): void {
  const address = new URL(location.href)
  if (value === undefined) address.searchParams.delete(name)
  else address.searchParams.set(name, value)
  history.replaceState(null, '', address)
}
