import { readdir, readFile } from 'node:fs/promises'
import { dirname, join, relative, resolve, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const root = fileURLToPath(new URL('../../..', import.meta.url))

interface Import {
  readonly file: string
  /** from the root, or the name of a package */
  readonly of: string
  readonly typesOnly: boolean
}

const statement =
  /(?:^|\n)\s*(?:import|export)\s+(type\s+)?(?:[\w*{}\s,$]+?\s+from\s+)?['"]([^'"]+)['"]|\bimport\(\s*(?:\/\*.*?\*\/)?\s*['"]([^'"]+)['"]\s*\)/g

async function filesBelow(folder: string): Promise<string[]> {
  const entries = await readdir(join(root, folder), { recursive: true, withFileTypes: true })
  return entries
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
}

async function importsOf(file: string): Promise<Import[]> {
  const text = await readFile(join(root, file), 'utf8')
  return [...text.matchAll(statement)].map(([, type, fixed, dynamic]) => ({
    file,
    of: placeOf(file, fixed ?? dynamic ?? ''),
    typesOnly: type !== undefined,
  }))
}

function placeOf(file: string, specifier: string): string {
  if (specifier.startsWith('@/')) return specifier.slice(2)
  if (!specifier.startsWith('.')) return specifier
  return relative(root, resolve(root, dirname(file), specifier))
    .split(sep)
    .join('/')
}

const importsBelow = async (folder: string): Promise<Import[]> =>
  (await Promise.all((await filesBelow(folder)).map(importsOf))).flat()

const [app, lib, server] = await Promise.all(['app', 'lib', 'server'].map(importsBelow))
const inLib = (folder: string) => (lib ?? []).filter(({ file }) => file.startsWith(`lib/${folder}/`))
const into = (imports: readonly Import[] | undefined, ...places: string[]): string[] =>
  (imports ?? [])
    .filter(({ of }) => places.some((place) => of.startsWith(place)))
    .map(({ file, of }) => `${file} imports ${of}`)

describe('the arrows between the parts', () => {
  it('are read from files that import something', () => {
    for (const imports of [app, lib, server]) expect(imports?.length).toBeGreaterThan(50)
    expect(into(app, 'lib/board/').length).toBeGreaterThan(0)
    expect(into(server, 'lib/board/').length).toBeGreaterThan(0)
  })

  it('never go between pages and server', () => {
    expect(into(app, 'server/')).toEqual([])
    expect(into(server, 'app/')).toEqual([])
  })

  it('never leave lib, which knows no page, no server and no machine', () => {
    expect(into(lib, 'app/', 'server/', 'tests/', 'node:', 'react', 'next')).toEqual([])
  })

  it('never come from tests or scripts into the product', () => {
    for (const imports of [app, lib, server]) expect(into(imports, 'tests/', 'scripts/')).toEqual([])
  })

  it.each([
    ['units', []],
    ['audiometry', ['units']],
    ['speech', ['units', 'audiometry']],
    ['devices', ['units']],
    ['middle-ear', ['units', 'audiometry', 'devices']],
    ['forecast', ['units', 'audiometry', 'speech', 'middle-ear', 'devices']],
    ['outcomes', ['units', 'audiometry', 'speech', 'forecast', 'devices']],
  ])('of lib/%s go to %s alone', (folder, allowed) => {
    const own = [folder, ...allowed].map((name) => `lib/${name}/`)
    const strays = inLib(folder).filter(({ of }) => of.startsWith('lib/') && !own.some((place) => of.startsWith(place)))
    expect(strays.map(({ file, of }) => `${file} imports ${of}`)).toEqual([])
  })

  it('of the case document to what is computed are types', () => {
    const computing = ['audiometry', 'speech', 'middle-ear', 'forecast', 'outcomes'].map((name) => `lib/${name}/`)
    const values = inLib('board').filter(
      ({ of, typesOnly }) => !typesOnly && computing.some((place) => of.startsWith(place)),
    )
    expect(values.map(({ file, of }) => `${file} imports ${of}`)).toEqual([])
  })
})
