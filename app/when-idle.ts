/** What nobody waits for is done at the latest then, however busy the page is. */
const mostMs = 3000

/** Calls back once the page has a pause; a browser that cannot tell is taken to have one now. @returns how to call it off */
export function whenIdle(callBack: () => void): () => void {
  if (typeof requestIdleCallback !== 'function') {
    const timer = setTimeout(callBack)
    return () => clearTimeout(timer)
  }
  const request = requestIdleCallback(callBack, { timeout: mostMs })
  return () => cancelIdleCallback(request)
}
