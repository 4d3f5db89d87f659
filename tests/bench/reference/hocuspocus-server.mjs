// A second reference sync server (no guard, no store) on a free port; prints the port.
import { Server } from '@hocuspocus/server'

const server = new Server({ address: '127.0.0.1', port: 0, quiet: true, stopOnSignals: false })
await server.listen()
console.log(server.address.port)
