/** Does what it is given one after the other; what failed holds nothing up. */
export function oneByOne(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (work) => {
    const done = last.then(work)
    last = done.catch(() => undefined)
    return done
  }
}
