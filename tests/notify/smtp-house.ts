import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { createServer, type Server, type Socket } from 'node:net'
import { SMTPServer } from 'smtp-server'

export type Mood = 'well' | 'refuses for now' | 'refuses for good' | 'drops in the middle'
export type MailHouse = {
  port: number
  mood: Mood
  arrived: string[]
  tried: number
  close: () => Promise<void>
}

/** A real mail server, in a mood. What it took whole stands in `arrived`. */
export async function mailHouse(port = 0): Promise<MailHouse> {
  const house: MailHouse = { port, mood: 'well', arrived: [], tried: 0, close: () => Promise.resolve() }
  const refusal = (code: number, says: string) => Object.assign(new Error(says), { responseCode: code })
  const sockets = new Set<Socket>()
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onRcptTo: (_, __, callback) => {
      house.tried += 1
      if (house.mood === 'refuses for now') callback(refusal(451, 'try again later'))
      else if (house.mood === 'refuses for good') callback(refusal(550, 'no such person'))
      else callback()
    },
    onData: (stream, _, callback) => {
      let text = ''
      stream.on('data', (piece) => {
        text += piece
      })
      if (house.mood === 'drops in the middle') {
        for (const socket of sockets) socket.destroy()
        stream.resume()
        return
      }
      stream.on('end', () => {
        house.arrived.push(text)
        callback()
      })
    },
  })
  server.on('error', () => undefined) // a dropped connection is what some tests ask for
  server.server.on('connection', (socket: Socket) => {
    sockets.add(socket)
    socket.on('close', () => sockets.delete(socket))
  })
  const listening = server.listen(port, '127.0.0.1')
  await once(listening, 'listening')
  house.port = (listening.address() as AddressInfo).port
  house.close = () => {
    for (const socket of sockets) socket.destroy()
    return new Promise((resolve) => server.close(() => resolve()))
  }
  return house
}

/** Takes calls, greets nobody and never answers. */
export async function deafHouse(): Promise<{ port: number; close: () => Promise<void> }> {
  const sockets = new Set<Socket>()
  const server: Server = createServer((socket) => {
    sockets.add(socket)
    socket.on('error', () => undefined)
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  return {
    port: (server.address() as AddressInfo).port,
    close: async () => {
      for (const socket of sockets) socket.destroy()
      server.close()
      await once(server, 'close')
    },
  }
}
