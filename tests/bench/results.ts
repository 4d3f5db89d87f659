import { readFile, writeFile } from 'node:fs/promises'
import { cpus, loadavg, release, totalmem } from 'node:os'
import { fileURLToPath } from 'node:url'
import { installed, mustRun } from '../../scripts/steps/run.mjs'

const page = fileURLToPath(new URL('RESULTS.md', import.meta.url))
const head = `# Results of the benches

Written by the benches themselves; each replaces its own part. Ratios of one run count: the machines are shared.
`

interface Limit {
  readonly what: string
  readonly value: number
  readonly most: number
}

/** Puts what a bench found into RESULTS.md, between its own marks. */
export async function writeResults(
  name: string,
  title: string,
  table: string,
  limits: readonly Limit[],
): Promise<void> {
  const [from, to] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`]
  const verdicts = limits.map(
    ({ what, value, most }) =>
      `| ${what} | ${value.toFixed(2)} | ${most.toFixed(2)} | ${value <= most ? 'met' : '**missed**'} |`,
  )
  const part = [
    from,
    `## ${title}`,
    '',
    machine(),
    '',
    table,
    '',
    ...(limits.length === 0 ? [] : ['| limit | value | at most | |', '| --- | --- | --- | --- |', ...verdicts, '']),
    to,
  ].join('\n')
  const before = await readFile(page, 'utf8').catch(() => head)
  const [start, end] = [before.indexOf(from), before.indexOf(to)]
  const after =
    start === -1 ? `${before.trimEnd()}\n\n${part}\n` : before.slice(0, start) + part + before.slice(end + to.length)
  await writeFile(page, after)
  // The lint wants tables in columns, and a bench should leave nothing for somebody to do by hand.
  await mustRun([...installed('@biomejs/biome/bin/biome'), 'format', '--write', page], 'RESULTS.md was not formatted.')
}

function machine(): string {
  const [cpu] = cpus()
  const load = loadavg()[0]?.toFixed(1)
  const day = new Date().toISOString().slice(0, 10)
  return `${day}, ${cpus().length} cores of ${cpu?.model.trim() ?? 'unknown'}, ${Math.round(totalmem() / 2 ** 30)} GiB, Linux ${release()}, Node ${process.versions.node}, load average ${load} at the end.`
}
