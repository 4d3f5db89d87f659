/** A browser that does not answer keeps nobody waiting for longer, and then keeps no copy. */
const patienceMs = 3000
const probeName = 'promontory.probe'
let early: Promise<boolean> | undefined

/** Finds out before whoever wants to know has been loaded: a slow phone takes long to open a database. */
export function probeStorageEarly(): void {
  early = probe()
}

/** Whether this browser lets the page store anything (private windows and full disks do not). */
export function storageWorks(): Promise<boolean> {
  const answer = early ?? probe()
  early = undefined
  return answer
}

function probe(): Promise<boolean> {
  return new Promise((resolve) => {
    setTimeout(() => resolve(false), patienceMs)
    try {
      const request = indexedDB.open(probeName)
      request.onsuccess = () => {
        request.result.close()
        resolve(true)
      }
      request.onerror = (event) => {
        event.preventDefault()
        resolve(false)
      }
      request.onblocked = () => resolve(false)
    } catch {
      resolve(false)
    }
  })
}
