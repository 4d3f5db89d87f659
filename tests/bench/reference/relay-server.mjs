// A raw relay: every frame goes to everybody else in the room, unread. What this machine can do at best. Prints its port.
import http from 'node:http'
import { WebSocketServer } from 'ws'

const rooms = new Map()
const server = http.createServer()
const sockets = new WebSocketServer({ server, perMessageDeflate: false })
sockets.on('connection', (socket, request) => {
  const name = (request.url ?? '/').split('?')[0]
  const room = rooms.get(name) ?? new Set()
  rooms.set(name, room)
  room.add(socket)
  socket.on('error', () => socket.terminate())
  socket.on('close', () => room.delete(socket))
  socket.on('message', (data) => {
    for (const other of room) if (other !== socket) other.send(data)
  })
})
server.listen(0, '127.0.0.1', () => console.log(server.address().port))
