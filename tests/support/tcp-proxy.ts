import { createServer, connect as dial, type Server, type Socket } from 'node:net'

/** A link that a test can break: bytes go through to a port of this computer, until it holds them. */
export class TcpProxy {
  readonly #server: Server
  readonly #sockets = new Set<Socket>()
  #held = false

  static async to(port: number): Promise<TcpProxy> {
    const proxy = new TcpProxy(port)
    await new Promise<void>((resolve) => proxy.#server.listen(0, '127.0.0.1', resolve))
    return proxy
  }

  private constructor(port: number) {
    this.#server = createServer({ pauseOnConnect: true }, (near) => {
      const far = dial(port, '127.0.0.1')
      for (const [socket, other] of [
        [near, far],
        [far, near],
      ] as const) {
        this.#sockets.add(socket)
        socket.on('data', (chunk) => other.write(chunk))
        socket.on('error', () => undefined)
        socket.on('close', () => {
          this.#sockets.delete(socket)
          other.destroy()
        })
        if (this.#held) socket.pause()
        else socket.resume()
      }
    })
  }

  get port(): number {
    const address = this.#server.address()
    if (typeof address !== 'object' || address === null) throw new Error('The proxy does not listen.')
    return address.port
  }

  /** Nothing goes through any more, and nobody is told: what a broken network looks like from both ends. */
  hold(): void {
    this.#held = true
    for (const socket of this.#sockets) socket.pause()
  }

  release(): void {
    this.#held = false
    for (const socket of this.#sockets) socket.resume()
  }

  async close(): Promise<void> {
    for (const socket of this.#sockets) socket.destroy()
    await new Promise((resolve) => this.#server.close(resolve))
  }
}
