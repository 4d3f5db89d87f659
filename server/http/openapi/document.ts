import { z } from 'zod'
import { ApiError } from '../../../lib/interchange/api.ts'
import type { FileBody, Route } from '../routes.ts'
import { type Answer, operations } from './operations.ts'

type Json = Readonly<Record<string, unknown>>

/**
 * The API as an OpenAPI 3.1 document: paths and bodies from the routes themselves, schemas from the zod definitions that
 * parse requests and answers.
 * @throws RangeError for a route that has no operation: it would be missing from the document
 */
export function openApiDocument(routes: readonly Route[]): Json {
  const paths: Record<string, Record<string, Json>> = {}
  for (const route of routes) {
    const path = route.pattern.replaceAll(/:(\w+)/g, '{$1}')
    paths[path] = { ...paths[path], [route.method.toLowerCase()]: operationOf(route) }
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'Promontory',
      version: '1',
      description:
        'Cases of ear surgery with implantable hearing devices: decision support for licensed professionals, not a medical device. A session cookie says who asks; what they may see and do follows from their invitation. Changes are taken from the address of the board alone.',
    },
    paths,
    components: {
      schemas: { Error: schemaOf(ApiError, 'output') },
      securitySchemes: { session: { type: 'apiKey', in: 'cookie', name: 'promontory' } },
    },
    security: [{ session: [] }],
  }
}

function operationOf({ method, pattern, body, takesFile }: Route): Json {
  const operation = operations[`${method} ${pattern}`]
  if (operation === undefined) throw new RangeError(`no operation describes ${method} ${pattern}`)
  const names = [...pattern.matchAll(/:(\w+)/g)].map(([, name]) => name)
  return {
    summary: operation.summary,
    tags: [operation.tag],
    operationId: `${method.toLowerCase()}${pattern.replaceAll(/[^A-Za-z]+(\w?)/g, (_, next: string) => next.toUpperCase())}`,
    ...(names.length === 0
      ? {}
      : { parameters: [...names.map(pathParameter), ...(takesFile?.headers ?? []).map(header)] }),
    ...(takesFile === undefined ? {} : { requestBody: fileBody(takesFile) }),
    ...(body === undefined
      ? {}
      : { requestBody: { content: { 'application/json': { schema: schemaOf(body, 'input') } } } }),
    responses: {
      ...answerOf(operation.answer),
      default: {
        description: 'Refused: what happened and what to do now',
        content: { 'application/json': { schema: { $ref: '#/components/schemas/Error' } } },
      },
    },
  }
}

const pathParameter = (name: string | undefined): Json => ({
  name,
  in: 'path',
  required: true,
  schema: { type: 'string' },
})

const header = ({ name, description }: { readonly name: string; readonly description: string }): Json => ({
  name,
  in: 'header',
  description,
  schema: { type: 'string' },
})

const fileBody = ({ types }: FileBody): Json => ({
  required: true,
  content: Object.fromEntries(types.map((type) => [type, {}])),
})

function answerOf(answer: Answer): Json {
  switch (answer.kind) {
    case 'json':
      return {
        [answer.status ?? 200]: {
          description: 'Done',
          content: { 'application/json': { schema: schemaOf(answer.schema, 'output') } },
        },
      }
    case 'empty':
      return { 200: { description: 'Done' } }
    case 'file':
      return {
        200: { description: 'Done', content: Object.fromEntries(answer.types.map((type) => [type, {}])) },
      }
    default:
      return answer satisfies never
  }
}

/** JSON Schema 2020-12, the dialect of OpenAPI 3.1. */
function schemaOf(schema: z.core.$ZodType, io: 'input' | 'output'): Json {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io, target: 'draft-2020-12', unrepresentable: 'any' })
  return rest
}
