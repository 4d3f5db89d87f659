import { readFile } from 'node:fs/promises'
import { expect, it } from 'vitest'
import { z } from 'zod'
import { isInRange } from '../../support/node-range.ts'

const fromRoot = (path: string) => readFile(new URL(`../../../${path}`, import.meta.url), 'utf8')

const Lock = z.object({
  packages: z.record(
    z.string(),
    z.object({
      version: z.string().optional(),
      optional: z.boolean().optional(),
      engines: z.record(z.string(), z.string()).or(z.array(z.string())).optional(),
    }),
  ),
})
const lockText = await fromRoot('package-lock.json')
const { packages } = Lock.parse(JSON.parse(lockText))
const Manifest = z.object({
  dependencies: z.record(z.string(), z.string()),
  devDependencies: z.record(z.string(), z.string()),
  engines: z.object({ node: z.string() }),
})
const manifest = Manifest.parse(JSON.parse(await fromRoot('package.json')))

const nodeRange = (engines: z.infer<typeof Lock>['packages'][string]['engines']): string =>
  Array.isArray(engines) ? '*' : (engines?.node ?? '*')

// Ranges and their members as the semver specification and npm's documentation of ranges give them.
it.each([
  ['20.19.0', '>=20.9.0', true],
  ['20.8.9', '>=20.9.0', false],
  ['20.19.0', '^18.18.0 || ^20.9.0 || >=21.1.0', true],
  ['19.9.0', '^18.18.0 || ^20.9.0 || >=21.1.0', false],
  ['20.19.0', '18 || 20 || >=22', true],
  ['21.0.0', '18 || 20 || >=22', false],
  ['20.19.0', '20.x', true],
  ['20.19.0', '>=18 <20', false],
  ['20.19.0', '~20.18', false],
  ['20.19.0', '~20', true],
  ['20.19.0', '>20', false],
  ['21.0.0', '>20', true],
  ['20.19.0', '<=20', true],
  ['20.19.0', '18 - 20', true],
  ['20.19.0', '*', true],
])('Node %s in %s: %s', (version, range, expected) => {
  expect(isInRange(version, range)).toBe(expected)
})

it('every package that is installed accepts the running Node and the oldest that we accept', () => {
  const [oldest = ''] = /\d+\.\d+\.\d+/.exec(manifest.engines.node) ?? []
  const refusing = Object.entries(packages).filter(([path, { engines, optional }]) => {
    const range = nodeRange(engines)
    const accepts = isInRange(process.versions.node, range) && isInRange(oldest, range)
    return path !== '' && optional !== true && !accepts
  })
  expect(refusing.map(([path, { engines }]) => `${path}: ${nodeRange(engines)}`)).toEqual([])
})

it('the lock file names no address that a package was downloaded from', () => {
  expect(lockText).not.toContain('"resolved"')
})

it('there is one Yjs, one y-protocols and one ProseMirror model', () => {
  for (const name of ['yjs', 'y-protocols', 'lib0', 'prosemirror-model', 'prosemirror-state'])
    expect([name, Object.keys(packages).filter((path) => path.endsWith(`node_modules/${name}`)).length]).toEqual([
      name,
      1,
    ])
})

it('what the product is made of is pinned exactly', () => {
  const pinned = /^\d+\.\d+\.\d+$/
  const loose = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies }).filter(
    ([name, version]) => !name.startsWith('@types/') && !pinned.test(version),
  )
  expect(loose).toEqual([])
})
