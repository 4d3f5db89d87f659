import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { root } from './run.mjs'

/** Where `zod/mini` of the pages is bundled to; next.config.ts points there. */
export const pageSchemasFile = '.stamp/page-schemas.mjs'

const usersOfSchemas = ['lib', 'app']
const use = /\bz\.(?:(iso)\.)?([a-z_]\w*)\(/g

/**
 * Bundles of the schema library what the pages use of it. The bundler of the pages keeps a module of the library whole
 * (21 kB, gzip, on every page); this one leaves 9 kB. A function that is missing here fails the build of the pages.
 */
export async function bundlePageSchemas() {
  const { build } = await import('esbuild')
  const { plain, iso } = await usedFunctions()
  await build({
    absWorkingDir: root,
    stdin: {
      contents: [
        `export { ${plain.join(', ')} } from 'zod/mini'`,
        `import { iso as dates } from 'zod/mini'`,
        `export const iso = { ${iso.map((name) => `${name}: dates.${name}`).join(', ')} }`,
      ].join('\n'),
      resolveDir: root,
    },
    outfile: pageSchemasFile,
    bundle: true,
    format: 'esm',
    target: 'es2022',
    logLevel: 'warning',
  })
}

async function usedFunctions() {
  const plain = new Set()
  const iso = new Set()
  for (const folder of usersOfSchemas)
    for (const entry of await readdir(join(root, folder), { recursive: true, withFileTypes: true })) {
      if (!entry.isFile() || !/\.tsx?$/.test(entry.name)) continue
      const text = await readFile(join(entry.parentPath, entry.name), 'utf8')
      if (!text.includes("from 'zod/mini'")) continue
      for (const [, namespace, name] of text.matchAll(use)) (namespace === undefined ? plain : iso).add(name)
    }
  return { plain: [...plain].sort(), iso: [...iso].sort() }
}
