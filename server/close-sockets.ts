import { once } from 'node:events'
import type { WebSocketServer } from 'ws'

/** How long a socket that was closed has to say goodbye. */
const goodbyeMs = 1_000

/** Ends a socket server whose sockets have been closed with a code: the code goes out before the link is cut. */
export async function closeSockets(server: WebSocketServer): Promise<void> {
  let timer: NodeJS.Timeout | undefined
  const patience = new Promise((resolve) => {
    timer = setTimeout(resolve, goodbyeMs)
  })
  await Promise.race([patience, Promise.all([...server.clients].map((client) => once(client, 'close')))])
  clearTimeout(timer)
  for (const client of server.clients) client.terminate()
  server.close()
}
