import { request } from 'node:https'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { annotate } from '../../lib/board/edits/hearing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { archiveLimits } from '../../lib/interchange/archive/manifest.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { BoardNodes } from '../support/board-nodes.ts'
import { LightClient } from '../support/light-client.ts'
import { TestNginx } from '../support/nginx.ts'
import { startServer, type TestServer } from '../support/start-server.ts'

interface Answer {
  readonly status: number
  readonly headers: NodeJS.Dict<string | string[]>
  readonly body: string
}

let proxy: TestNginx

function ask(method: string, path: string, body = '', headers: Record<string, string> = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const from = { origin: proxy.origin, 'content-type': 'application/json' }
    const url = new URL(path, proxy.origin)
    const asking = request(url, { method, rejectUnauthorized: false, headers: { ...from, ...headers } }, (answer) => {
      let text = ''
      answer.on('data', (chunk) => {
        text += chunk
      })
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: text }))
    })
    asking.on('error', reject)
    asking.end(body)
  })
}

const portOf = ({ url }: TestServer): number => Number(new URL(url).port)
const tokenIn = (link: string): string => link.split('/').at(-1) ?? ''

/** Joins as owner, and makes a case. */
async function meet(token: string) {
  const join = await ask('POST', '/api/join', JSON.stringify({ token, name: 'Anna', affiliation: 'Clinic' }))
  const [cookie = ''] = join.headers['set-cookie'] ?? []
  const owner = { cookie: cookie.split(';')[0] ?? '' }
  const programme = JSON.parse((await ask('POST', '/api/programmes', '{"label":"Day"}', owner)).body) as { id: string }
  const path = `/api/programmes/${programme.id}/cases`
  const { id } = JSON.parse((await ask('POST', path, '{"label":"Heron"}', owner)).body) as { id: string }
  const { participant } = JSON.parse(join.body) as { participant: { id: string } }
  return { setCookie: cookie, owner, programme: programme.id, caseId: id, participant: participant.id }
}

const openBoard = (caseId: string, { cookie }: { cookie: string }): Promise<LightClient> =>
  LightClient.join(`${proxy.origin.replace('https', 'wss')}/sync/record.${caseId}?own=1&ticket=kingfisher`, {
    headers: { cookie, origin: proxy.origin },
    rejectUnauthorized: false,
  })

let made = 0
const pin = (client: LightClient, author: string, text: string) =>
  client.attempt((doc) => {
    const pen = { participant: author, now: () => new Date(), newId: () => `pin-${++made}` }
    annotate(doc, pen, { place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) }, text })
  })
const pins = ({ doc }: LightClient): string[] => readTable(doc, 'annotations').map(({ text }) => text)

describe('one server behind the proxy', () => {
  let server: TestServer
  beforeAll(async () => {
    proxy = await TestNginx.prepare()
    server = await startServer({ env: { ORIGIN: proxy.origin } })
    await proxy.start('one-server', [portOf(server)])
  }, 600_000)
  afterAll(async () => {
    await proxy.stop()
    await server.stop()
  })

  it('is a board over TLS: cookie, headers, socket, large files; and its links stand in no log', async () => {
    const { setCookie, owner, programme, caseId, participant } = await meet(tokenIn(server.ownerLink))
    expect(setCookie).toMatch(/^__Host-promontory=.*; Secure/)
    const page = await ask('GET', `/join/${tokenIn(server.ownerLink)}?again=1`)
    expect([page.status, page.headers['strict-transport-security']]).toEqual([200, expect.stringContaining('max-age')])

    const [writer, reader] = [await openBoard(caseId, owner), await openBoard(caseId, owner)]
    expect(await pin(writer, participant, 'through the proxy')).toBe('stored')
    await reader.until(() => pins(reader).includes('through the proxy'))
    for (const client of [writer, reader]) client.close()

    const archive = `/api/programmes/${programme}/archives`
    const upload = (bytes: number) =>
      ask('POST', archive, 'x'.repeat(bytes), { ...owner, 'content-type': 'application/zip' })
    expect((await upload(archiveLimits.bytes)).status).toBe(422)
    expect((await upload(archiveLimits.bytes + 2 * 2 ** 20)).status).toBe(413)
    expect((await ask('GET', '/metrics')).status).toBe(404)

    await ask('GET', `/api/invitations/${tokenIn(server.ownerLink)}/preview`)
    // The proxy writes its line after the answer has gone out.
    await vi.waitFor(async () => {
      const { access } = await proxy.logs()
      for (const path of ['/join/...', '/api/invitations/...', `/sync/record.${caseId} 101`])
        expect(access).toContain(path)
    })
    const { access, errors } = await proxy.logs()
    for (const secret of [tokenIn(server.ownerLink), 'kingfisher', '?', owner.cookie.split('=')[1] ?? '?'])
      expect(access + errors).not.toContain(secret)
  })

  it('tells the server who asks, whatever they say of themselves', async () => {
    const forged = { 'x-forwarded-for': '203.0.113.7' }
    await ask('GET', `/api/invitations/${'nobody'.repeat(6)}/preview`, '', forged)
    expect(server.errors).toMatch(/"event":"link-unknown","address":"127\.0\.0\.1"/)
    expect(server.errors).not.toContain('203.0.113.7')
  })
})

describe('two servers behind the proxy', () => {
  let board: BoardNodes
  beforeAll(async () => {
    proxy = await TestNginx.prepare()
    board = await BoardNodes.start(2, { ORIGIN: proxy.origin })
    await proxy.start('two-servers', board.nodes.map(portOf))
  }, 600_000)
  afterAll(async () => {
    await proxy.stop()
    await board.stop()
  })

  it('are one board, and stay one while either of them is restarted', async () => {
    const { owner, caseId, participant } = await meet(tokenIn(board.node(0).ownerLink))
    const clients = await Promise.all([0, 1, 2, 3].map(() => openBoard(caseId, owner)))
    const [first] = clients as [LightClient]
    expect(await pin(first, participant, 'before')).toBe('stored')
    await Promise.all(clients.map((client) => client.until(() => pins(client).includes('before'))))
    for (const index of [0, 1]) {
      expect(await board.node(index).terminate()).toBe(0)
      const again = await openBoard(caseId, owner)
      expect(await pin(again, participant, `without ${index}`)).toBe('stored')
      await again.until(() => pins(again).length === index + 2)
      again.close()
      await board.node(index).start()
      await vi.waitFor(async () => expect((await board.node(index).get('/readyz')).status).toBe(200))
    }
    for (const client of clients) client.close()
  })
})
