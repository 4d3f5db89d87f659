import { readFile, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { createSigner, loadKey } from '../../../server/people/signer.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

const signer = createSigner(new Uint8Array(32).fill(7))

describe('signer', () => {
  it('verifies what it signed, for the same purpose only', () => {
    const signed = signer.sign('session', 'abc.def')
    expect(signer.verify('session', signed)).toBe('abc.def')
    expect(signer.verify('ticket', signed)).toBeUndefined()
  })

  it('refuses what another key signed, and every change of a letter', () => {
    const signed = signer.sign('session', 'token')
    expect(createSigner(new Uint8Array(32).fill(8)).verify('session', signed)).toBeUndefined()
    for (let index = 0; index < signed.length - 1; index++) {
      const letter = signed[index] === 'A' ? 'B' : 'A'
      expect(signer.verify('session', signed.slice(0, index) + letter + signed.slice(index + 1))).toBeUndefined()
    }
  })

  it.each(['', '.', 'token', 'token.', '.AAAA', 'token.not base64'])('refuses %j', (text) => {
    expect(signer.verify('session', text)).toBeUndefined()
  })

  it('signs with HMAC-SHA-256', () => {
    // Computed by OpenSSL:
    // printf 'ticket\0Hi There' | openssl dgst -sha256 -mac HMAC -macopt hexkey:0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b
    const key = new Uint8Array(20).fill(0x0b)
    const [, mac = ''] = createSigner(key).sign('ticket', 'Hi There').split('.')
    expect(Buffer.from(mac, 'base64url').toString('hex')).toBe(
      'a66c12e7871a583dc0b16075a5c7eab0a8e11b2b6f52fd34055bbf1e4eae4783',
    )
  })
})

describe('key file', () => {
  let folder: string
  beforeEach(async () => {
    folder = await makeTemporaryFolder()
  })
  afterEach(() => removeFolder(folder))

  it('is made once, for the owner of the process alone', async () => {
    const file = join(folder, 'signing.key')
    const key = await loadKey(file)
    expect((await stat(file)).mode & 0o777).toBe(0o600)
    expect(key).toHaveLength(32)
    expect(await loadKey(file)).toEqual(key)
    expect(new Uint8Array(await readFile(file))).toEqual(new Uint8Array(key))
  })

  it('is refused when it was cut off', async () => {
    const file = join(folder, 'signing.key')
    await writeFile(file, 'short')
    await expect(loadKey(file)).rejects.toThrow(/5 bytes instead of 32/)
  })
})
