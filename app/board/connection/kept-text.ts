/** Small texts that this browser keeps for the page; a browser that keeps nothing loses only them. */
export interface KeptText {
  read(key: string): string | null
  /** @returns whether it could be kept */
  write(key: string, text: string): boolean
}

export const browserText: KeptText = {
  read: (key) => {
    try {
      return localStorage.getItem(key)
    } catch {
      return null
    }
  },
  write: (key, text) => {
    try {
      localStorage.setItem(key, text)
      return true
    } catch {
      return false
    }
  },
}
