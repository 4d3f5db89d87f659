import { Validator } from '@seriousme/openapi-schema-validator'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { demo } from '@/server/demo/demo.ts'
import { openApiDocument } from '@/server/http/openapi/document.ts'
import { operations } from '@/server/http/openapi/operations.ts'
import { type ApiInstallation, startApiInstallation } from '../../support/api-installation.ts'

const now = () => new Date('2026-05-04T10:00:00.000Z')
const Document = z.looseObject({
  openapi: z.string(),
  paths: z.record(z.string(), z.record(z.string(), z.looseObject({ operationId: z.string() }))),
})

let installation: ApiInstallation
let owner: string
beforeAll(async () => {
  installation = await startApiInstallation(now)
  await demo.seed(installation.store, now())
  owner = await installation.join('moderator', { kind: 'installation' })
})
afterAll(() => installation.stop())

const document = async () => Document.parse(await (await installation.get('/api/openapi.json')).json())

describe('the description of the API', () => {
  it('is a valid OpenAPI 3.1 document by an independent validator', async () => {
    const described = await document()
    expect(described.openapi).toBe('3.1.0')
    expect(await new Validator().validate(described)).toMatchObject({ valid: true })
  })

  it('is held against rules that the validator does hold: a parameter that stands nowhere is found', async () => {
    const described = await document()
    const wrong = JSON.stringify(described).replaceAll('"in":"path"', '"in":"nowhere"')
    expect((await new Validator().validate(wrong)).valid).toBe(false)
  })

  it('has every route of the server, and nothing else', async () => {
    const described = Object.entries((await document()).paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`),
    )
    const served = installation.routes.map(({ method, pattern }) => `${method} ${pattern}`)
    expect(described.sort()).toEqual(served.sort())
    expect(Object.keys(operations).sort()).toEqual(served.sort())
  })

  it('gives every operation an id of its own', async () => {
    const ids = Object.values((await document()).paths).flatMap((methods) =>
      Object.values(methods).map(({ operationId }) => operationId),
    )
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('cannot leave a route out by mistake', () => {
    const stray = { method: 'GET', pattern: '/api/stray', handle: async () => ({ status: 200, body: {} }) } as const
    expect(() => openApiDocument([stray])).toThrow(RangeError)
  })

  it('says of each answer what is answered', async () => {
    const params: Readonly<Record<string, string>> = { id: 'demo-heron' }
    const asked: string[] = []
    for (const [name, { answer }] of Object.entries(operations)) {
      const [method, pattern = ''] = name.split(' ')
      if (method !== 'GET' || answer.kind !== 'json' || /:(token|vote|at)/.test(pattern)) continue
      const path = pattern.startsWith('/api/programmes')
        ? pattern.replace(':id', 'demo')
        : pattern.replace(':id', params.id ?? '')
      const response = await installation.get(path, owner)
      expect([name, response.status]).toEqual([name, 200])
      const parsed = z.safeParse(answer.schema, await response.json())
      expect([name, parsed.error?.issues ?? []]).toEqual([name, []])
      asked.push(name)
    }
    expect(asked.length).toBeGreaterThan(15)
  })
})

describe('the record of a case as data', () => {
  it.each(['tests', 'measures', 'forecasts'])('is given as %s to those who may open the case alone', async (what) => {
    const path = `/api/cases/demo-heron/${what}`
    expect((await installation.get(path)).status).toBe(401)
    const elsewhere = await installation.join('team', { kind: 'case', id: 'demo-plover' })
    expect((await installation.get(path, elsewhere)).status).toBe(403)
    const observer = await installation.join('observer', { kind: 'case', id: 'demo-heron' })
    expect((await installation.get(path, observer)).status).toBe(200)
  })
})
