import { createHash, randomBytes } from 'node:crypto'

// Without l, o, 0 and 1, which are mistaken for others when somebody reads an id aloud; 32 letters, so 5 bits each.
const alphabet = 'abcdefghijkmnpqrstuvwxyz23456789'
const idLength = 16
const tokenBytes = 24

/** A random id of 80 bits for a row, lower-case letters and digits. */
export const newId = (): string => Array.from(randomBytes(idLength), (byte) => alphabet[byte % 32]).join('')

/** A secret of 192 bits that opens a session or an invitation. */
export const newToken = (): string => randomBytes(tokenBytes).toString('base64url')

/** What the store keeps of a token. The token is random and long, so a plain hash cannot be searched. */
export const hashToken = (token: string): string => createHash('sha256').update(token).digest('hex')
