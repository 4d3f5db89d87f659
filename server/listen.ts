import type { Server } from 'node:http'
import { CannotStart } from './cannot-start.ts'

/**
 * Begins to listen. @returns the port, which is another than asked for only when that was 0
 * @throws CannotStart with what to do when the address cannot be had
 */
export function listen(server: Server, port: number, host: string): Promise<number> {
  return new Promise((resolve, reject) => {
    const refuse = (error: NodeJS.ErrnoException) =>
      reject(new CannotStart(reasonFor(error, port, host), { cause: error }))
    server.once('error', refuse)
    server.listen(port, host, () => {
      server.off('error', refuse)
      const address = server.address()
      resolve(typeof address === 'object' && address !== null ? address.port : port)
    })
  })
}

function reasonFor({ code, message }: NodeJS.ErrnoException, port: number, host: string): string {
  switch (code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is already in use; stop what uses it, or set PORT to another number.`
    case 'EACCES':
      return `Port ${port} may not be opened by this user; set PORT to a number above 1023.`
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `HOST ${host} is no address of this computer; set HOST to one that is, such as 127.0.0.1 or 0.0.0.0.`
    default:
      return `The server cannot listen on ${host}, port ${port}: ${message}.`
  }
}
