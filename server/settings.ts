import { accessSync, constants, existsSync, mkdirSync, statSync } from 'node:fs'
import { resolve } from 'node:path'
import { z } from 'zod'
import { CannotStart } from './cannot-start.ts'

const defaultPort = 3000

/** What the environment decides. README.md lists it for the person who runs the server. */
const Environment = z.object({
  PORT: z
    .string()
    .regex(/^\d{1,5}$/)
    .transform(Number)
    .pipe(z.int().min(0).max(65_535))
    .default(defaultPort),
  HOST: z.string().min(1).default('127.0.0.1'),
  DATA_DIR: z.string().min(1).default('data'),
  DEMO: z.enum(['0', '1']).default('1'),
  ORIGIN: z
    .url({ protocol: /^https?$/, abort: true })
    .refine((text) => new URL(text).pathname === '/')
    .transform((text) => new URL(text).origin)
    .optional(),
  DATABASE_URL: z.undefined().optional(),
})

const complaints: { readonly [Name in keyof z.infer<typeof Environment>]-?: (value: string) => string } = {
  PORT: (value) => `PORT is "${value}"; give a number from 0 to 65535 (0 takes any free port).`,
  HOST: () => 'HOST is empty; give the address to listen on, such as 127.0.0.1 or 0.0.0.0.',
  DATA_DIR: () => 'DATA_DIR is empty; give the folder to keep the data in.',
  DEMO: (value) => `DEMO is "${value}"; give 1 for the invented demo programme or 0 to leave it out.`,
  ORIGIN: (value) => `ORIGIN is "${value}"; give the address that people open, such as https://board.example.org.`,
  DATABASE_URL: () => 'DATABASE_URL is not supported yet; unset it to keep the data in SQLite under DATA_DIR.',
}

export interface Settings {
  /** TCP port; 0 takes any free one. */
  readonly port: number
  readonly host: string
  /** Absolute path of a folder that exists and can be written. */
  readonly dataDir: string
  readonly demo: boolean
  /** Public origin when people come through a proxy; undefined when they come to `host` and `port`. */
  readonly origin: string | undefined
}

/**
 * Reads the settings and makes the data folder.
 * @throws CannotStart naming the setting, its value and what it may be
 */
export function readSettings(environment: Readonly<Record<string, string | undefined>>): Settings {
  const parsed = Environment.safeParse(environment)
  if (!parsed.success) throw new CannotStart(complaintAbout(parsed.error, environment))
  const { PORT, HOST, DATA_DIR, DEMO, ORIGIN } = parsed.data
  return { port: PORT, host: HOST, dataDir: writableFolder(DATA_DIR), demo: DEMO === '1', origin: ORIGIN }
}

function complaintAbout(error: z.ZodError, environment: Readonly<Record<string, string | undefined>>): string {
  const name = Environment.keyof().parse(error.issues[0]?.path[0])
  return complaints[name](environment[name] ?? '')
}

function writableFolder(path: string): string {
  const folder = resolve(path)
  try {
    // One level only: where a file system refuses by ENOENT, as /proc does, a recursive mkdir of Node 20 never ends.
    if (!existsSync(folder)) mkdirSync(folder, { mode: 0o700 })
    if (!statSync(folder).isDirectory())
      throw new CannotStart(`DATA_DIR ${folder} is not a folder; choose another name.`)
    accessSync(folder, constants.W_OK | constants.X_OK)
    return folder
  } catch (cause) {
    if (cause instanceof CannotStart) throw cause
    const why = cause instanceof Error && 'code' in cause ? String(cause.code) : String(cause)
    throw new CannotStart(
      `DATA_DIR ${folder} cannot be made or written (${why}); choose a folder in one that exists, or change its owner.`,
      { cause },
    )
  }
}

/** Address of a server of this computer, as something on this computer reaches it. */
export function localUrl(host: string, port: number): string {
  const reachable = host === '0.0.0.0' || host === '::' ? '127.0.0.1' : host
  return `http://${reachable.includes(':') ? `[${reachable}]` : reachable}:${port}`
}
