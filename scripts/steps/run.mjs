import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

export const root = fileURLToPath(new URL('../..', import.meta.url))

const environment = { NEXT_TELEMETRY_DISABLED: '1', ...process.env }

/** The JavaScript entry of an installed command, run with this Node: no shell, no PATH. */
export const installed = (path) => [
  process.execPath,
  fileURLToPath(new URL(`../../node_modules/${path}`, import.meta.url)),
]

/**
 * Runs a command in the project's folder and resolves with its exit code. Signals are passed on, so that stopping the
 * script stops what it runs.
 * @param {string[]} command program and arguments
 * @param {{ env?: Record<string, string>, output?: 'inherit' | 'errors' | 'none' }} [options]
 * @returns {Promise<number>}
 */
export function run([program, ...args], { env = {}, output = 'inherit' } = {}) {
  const streams = { inherit: 'inherit', errors: ['ignore', 'ignore', 'inherit'], none: 'ignore' }[output]
  const child = spawn(program, args, { cwd: root, env: { ...environment, ...env }, stdio: streams })
  const forward = (signal) => child.kill(signal)
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, forward)
  return new Promise((resolve, reject) => {
    child.on('error', reject)
    child.on('exit', (code, signal) => {
      for (const name of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.off(name, forward)
      resolve(code ?? (signal === null ? 1 : 130))
    })
  })
}

/** As `run`; a command that fails ends this process with one line and its exit code. */
export async function mustRun(command, whenItFails, options = {}) {
  const code = await run(command, options)
  if (code === 0) return
  console.error(whenItFails)
  process.exit(code)
}
