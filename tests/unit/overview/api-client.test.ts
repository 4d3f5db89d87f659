import { afterEach, beforeAll, expect, test, vi } from 'vitest'
import { z } from 'zod'
import { ApiFault, askApi, sentenceOfFault } from '../../../app/api-client.ts'
import { everywhere } from '../../../app/messages/parts/everywhere.ts'

const Answer = z.strictObject({ label: z.string() })

function answerWith(status: number, body: string): void {
  vi.stubGlobal('fetch', async () => new Response(body, { status }))
}

beforeAll(() => everywhere.load('en'))
afterEach(() => vi.unstubAllGlobals())

const faultOf = async (): Promise<ApiFault> => {
  const error = await askApi('/api/me', Answer).catch((thrown: unknown) => thrown)
  if (!(error instanceof ApiFault)) throw new TypeError('expected a fault')
  return error
}

test('an answer is parsed by its schema', async () => {
  answerWith(200, '{"label":"Heron"}')
  expect(await askApi('/api/me', Answer)).toEqual({ label: 'Heron' })
})

test('a refusal keeps its code and its sentence', async () => {
  answerWith(403, '{"error":{"code":"not-permitted","message":"Ask the owner."}}')
  const fault = await faultOf()
  expect([fault.code, sentenceOfFault(fault)]).toEqual(['not-permitted', 'Ask the owner.'])
})

test.each([
  [200, '{"label":7}'],
  [200, 'no JSON'],
  [502, '<html>gateway</html>'],
])('an answer %i that is not ours is told as such: %s', async (status, body) => {
  answerWith(status, body)
  expect((await faultOf()).code).toBe('unreadable')
})

test('a server that cannot be reached is told apart', async () => {
  vi.stubGlobal('fetch', async () => {
    throw new TypeError('Failed to fetch')
  })
  expect((await faultOf()).code).toBe('no-link')
})
