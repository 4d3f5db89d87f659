import { randomBytes } from 'node:crypto'
import { type IncomingMessage, Server, type ServerResponse } from 'node:http'
import type { Duplex } from 'node:stream'
import next from 'next'
import type { Origins } from './http/origin.ts'
import { developmentPolicy, pagePolicy } from './http/security-headers.ts'

export interface Pages {
  handle(request: IncomingMessage, response: ServerResponse): Promise<void>
  /** Hot reload, while developing. @returns false when nobody here takes the upgrade */
  handleUpgrade(request: IncomingMessage, socket: Duplex, head: Buffer): boolean
  close(): Promise<void>
}

export interface PagesOptions {
  /** Folder of the project: pages are found from it, not from the working directory. */
  readonly root: string
  readonly development: boolean
  readonly host: string
  readonly port: number
  readonly origins: Origins
}

/** The pages, rendered by Next. */
export async function openPages({ root, development, host, port, origins }: PagesOptions): Promise<Pages> {
  // Next hangs an upgrade listener of its own on the server it is given; on the real one it would end sync sockets.
  const upgrades = new Server()
  const app = next({ dev: development, dir: root, hostname: host, port, httpServer: upgrades })
  await app.prepare()
  const render = app.getRequestHandler()
  return {
    handle: (request, response) => {
      const policy = development ? developmentPolicy : noncePolicy(origins.socketSources(request.headers))
      // Next takes the nonce for its own scripts from the policy on the request.
      request.headers['content-security-policy'] = policy
      response.setHeader('Content-Security-Policy', policy)
      return render(request, response)
    },
    handleUpgrade: (request, socket, head) => development && upgrades.emit('upgrade', request, socket, head),
    close: () => app.close(),
  }
}

const noncePolicy = (socketSources: string) => pagePolicy(randomBytes(16).toString('base64'), socketSources)
