import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto'
import { readFile, writeFile } from 'node:fs/promises'

const keyBytes = 32

/** What a signature is for: one made for a ticket never passes as a session. */
export type Purpose = 'session' | 'ticket' | 'first-link'

export interface Signer {
  /** @returns the text with its signature behind the last dot */
  sign(purpose: Purpose, text: string): string
  /** @returns the text without its signature, or undefined when the signature is not ours */
  verify(purpose: Purpose, signed: string): string | undefined
  /** A secret that follows from the key: the same after every start, and known to nobody without the key. */
  derive(purpose: Purpose, text: string): string
}

/** HMAC-SHA-256 (RFC 2104, FIPS 180-4) under a key of 256 bits. */
export function createSigner(key: Uint8Array): Signer {
  const mac = (purpose: Purpose, text: string) => createHmac('sha256', key).update(`${purpose}\0${text}`).digest()
  return {
    sign: (purpose, text) => `${text}.${mac(purpose, text).toString('base64url')}`,
    verify: (purpose, signed) => {
      const dot = signed.lastIndexOf('.')
      const text = signed.slice(0, Math.max(dot, 0))
      const given = Buffer.from(signed.slice(dot + 1), 'base64url')
      const expected = mac(purpose, text)
      return given.length === expected.length && timingSafeEqual(given, expected) ? text : undefined
    },
    derive: (purpose, text) => mac(purpose, text).toString('base64url'),
  }
}

/** Reads the key in a file, or makes one that only the server's own user can read. */
export async function loadKey(file: string): Promise<Uint8Array> {
  try {
    await writeFile(file, randomBytes(keyBytes), { mode: 0o600, flag: 'wx' })
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error
  }
  const key = await readFile(file)
  if (key.length !== keyBytes)
    throw new RangeError(`${file} has ${key.length} bytes instead of ${keyBytes}: restore it from the backup.`)
  return key
}
