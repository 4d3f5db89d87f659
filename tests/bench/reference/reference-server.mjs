// The reference sync server (no guard, no store) on a free port; prints the port.
import http from 'node:http'
import { setupWSConnection } from '@y/websocket-server/utils'
import { WebSocketServer } from 'ws'

const server = http.createServer()
const sockets = new WebSocketServer({ server, perMessageDeflate: false })
sockets.on('connection', (socket, request) => {
  socket.on('error', () => socket.terminate())
  setupWSConnection(socket, request)
})
server.listen(0, '127.0.0.1', () => console.log(server.address().port))
