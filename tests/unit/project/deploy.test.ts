import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { archiveLimits } from '../../../lib/interchange/archive/manifest.ts'
import { root } from '../../../scripts/steps/run.mjs'
import { serverArguments, serverEnvironment } from '../../../scripts/steps/server-process.mjs'
import { limits } from '../../../server/room/limits.ts'
import { settingRows } from '../../../server/settings.ts'

/** What deploy/ says is held against the server that it is for. tests/deploy tries it where the programs are there. */
const read = (...path: string[]) => readFileSync(join(root, ...path), 'utf8')
const unit = read('deploy', 'promontory@.service')
const proxy = read('deploy', 'nginx', 'promontory.conf')
const valuesOf = (name: string): string[] =>
  [...unit.matchAll(new RegExp(`^${name}=(.*)$`, 'gm'))].map(([, v = '']) => v)
const directive = (name: string): string => new RegExp(`^\\s*${name}\\s+(.*);$`, 'm').exec(proxy)?.[1] ?? ''
const known = settingRows().map(({ name }) => name)

describe('the service unit', () => {
  it('names settings that there are, and so does the file beside it', () => {
    const inFile = [...read('deploy', 'promontory.env').matchAll(/^#?([A-Z_]+)=/gm)].map(([, name]) => name)
    const inUnit = valuesOf('Environment').map((text) => text.split('=')[0])
    expect(inUnit).toContain('NODE_ENV')
    expect(inFile.length).toBeGreaterThan(1)
    for (const name of [...inFile, ...inUnit]) expect([...known, ...Object.keys(serverEnvironment)]).toContain(name)
  })

  it('starts the server as npm start does, from the folder that holds the data of its own user', () => {
    expect(valuesOf('ExecStart')).toEqual([['/usr/bin/node', ...serverArguments].join(' ')])
    for (const [name, value] of Object.entries(serverEnvironment))
      expect(valuesOf('Environment')).toContain(`${name}=${value}`)
    expect(valuesOf('Environment')).toContain(`DATA_DIR=/var/lib/${valuesOf('StateDirectory')[0]}`)
  })

  it('gives an end in good order more time than the server takes for it, and a full house enough files', () => {
    expect(Number(valuesOf('TimeoutStopSec')[0]) * 1000).toBeGreaterThan(3 * limits.drainMs)
    expect(Number(valuesOf('LimitNOFILE')[0])).toBeGreaterThanOrEqual(2 * limits.sockets)
  })
})

describe('the proxy', () => {
  it('lets through what the server takes, and keeps a quiet socket', () => {
    const megabytes = Number(/^(\d+)m$/.exec(directive('client_max_body_size'))?.[1])
    expect(megabytes * 2 ** 20 - archiveLimits.bytes).toBe(2 ** 20)
    expect(read('README.md')).toContain(`lets ${megabytes} MB through`)
    expect(directive('proxy_read_timeout')).toBe('1h')
    expect(3_600_000).toBeGreaterThan(10 * limits.heartbeatMs)
  })

  it('leads to the ports that the units listen on, as README.md starts them', () => {
    const files = readdirSync(join(root, 'deploy', 'nginx')).filter(
      (name) => name.endsWith('-server.conf') || name.endsWith('-servers.conf'),
    )
    expect(files).toEqual(['one-server.conf', 'two-servers.conf'])
    const ports = files.flatMap((name) =>
      [...read('deploy', 'nginx', name).matchAll(/server 127\.0\.0\.1:(\d+)/g)].map(([, port]) => port),
    )
    expect(ports).toEqual(['3000', '3000', '3001'])
    for (const port of ports) expect(read('README.md')).toContain(`promontory@${port}`)
  })
})
