import type * as z from 'zod/mini'
import { ApiFault, faultOf } from '@/app/api-client.ts'
import { messagesNow } from '@/app/messages/parts/everywhere.ts'

/**
 * Sends a file to the server and parses its answer.
 * @param headers what sort of file it is, and what is said of it
 * @throws ApiFault with a sentence that says what happened and what to do
 */
export async function sendFile<S extends z.ZodMiniType>(
  path: `/api/${string}`,
  file: Blob,
  headers: Readonly<Record<string, string>>,
  answer: S,
): Promise<z.infer<S>> {
  let response: Response
  try {
    response = await fetch(path, { method: 'POST', credentials: 'same-origin', cache: 'no-store', headers, body: file })
  } catch {
    throw new ApiFault('no-link', messagesNow().shell.noLink)
  }
  const body: unknown = await response.json().catch(() => undefined)
  if (!response.ok) throw await faultOf(response.status, body)
  const parsed = answer.safeParse(body)
  if (!parsed.success) throw new ApiFault('unreadable', messagesNow().shell.unreadableAnswer)
  return parsed.data
}
