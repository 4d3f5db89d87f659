import { openApiDocument } from '../openapi/document.ts'
import { ok } from '../reply.ts'
import { anyone, get, type Route } from '../routes.ts'

/** The description of the API itself. @param others all other routes */
export function openApiRoutes(others: readonly Route[]): readonly Route[] {
  const routes: Route[] = [...others]
  let document: unknown
  routes.push(
    get('/api/openapi.json', anyone, async () => {
      document ??= openApiDocument(routes)
      return ok(document)
    }),
  )
  return routes
}
