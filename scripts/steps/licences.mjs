import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

/**
 * Licences (SPDX identifiers) under which a package may be part of what we run. All allow commercial use without making our
 * own source theirs; the weak copyleft of LGPL-3.0 is kept by a library that is loaded, unchanged, as a file of its own.
 * Vulnerabilities are another matter and need a network: `npm audit --omit=dev`, by hand (DEVELOPERS.md).
 */
export const allowedLicences = [
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BSL-1.0',
  'CC-BY-4.0',
  'CC0-1.0',
  'ISC',
  'LGPL-3.0-or-later',
  'MIT',
  'OFL-1.1',
]

/** Packages whose manifest names no licence, by name and version: what the licence file in them is. */
const readByHand = { 'png-js@2.0.0': 'MIT' }

/** Whether an SPDX expression can be kept by licences of the list alone. Brackets, AND and OR; anything else is no. */
export function isAllowed(expression, allowed = allowedLicences) {
  const tokens = expression.match(/[()]|[^\s()]+/g) ?? []
  let next = 0
  const either = () => {
    let value = both()
    while (tokens[next] === 'OR') {
      next += 1
      value = both() || value
    }
    return value
  }
  const both = () => {
    let value = one()
    while (tokens[next] === 'AND') {
      next += 1
      value = one() && value
    }
    return value
  }
  const one = () => {
    const token = tokens[next++]
    if (token !== '(') return allowed.includes(token)
    const value = either()
    return tokens[next++] === ')' && value
  }
  const value = either()
  return value && next === tokens.length
}

/**
 * Reads the licence of every package that production needs from the package itself, as it is installed in `folder`.
 * Packages of other platforms are in the lock file and not installed: they are not part of what runs here.
 * @returns how many were read, and a line for each that may not be used or says nothing
 */
export async function checkLicences(folder) {
  const { packages } = JSON.parse(await readFile(join(folder, 'package-lock.json'), 'utf8'))
  const wanted = Object.entries(packages).filter(([path, { dev }]) => path !== '' && dev !== true)
  const found = await Promise.all(wanted.map(([path, entry]) => complaintAbout(folder, path, entry)))
  return {
    checked: found.filter((complaint) => complaint !== 'elsewhere').length,
    complaints: found.filter((complaint) => complaint !== undefined && complaint !== 'elsewhere'),
  }
}

async function complaintAbout(folder, path, { optional = false, devOptional = false }) {
  let manifest
  try {
    manifest = JSON.parse(await readFile(join(folder, path, 'package.json'), 'utf8'))
  } catch (error) {
    if (error.code !== 'ENOENT') throw error
    return optional || devOptional ? 'elsewhere' : `${path} is not installed`
  }
  const { name, version, license = readByHand[`${name}@${version}`] } = manifest
  if (typeof license !== 'string') return `${path} names no licence`
  return isAllowed(license) ? undefined : `${path} is under ${license}`
}
