import { createHmac, timingSafeEqual } from 'node:crypto'

export type Channel = 'email' | 'gateway'

/** Drawn from the server's secret for this use alone, so that no other signature of the server is ever a token. */
const macOf = (secret: string, patientId: string, channel: Channel) =>
  createHmac('sha256', secret).update(`stop reminders\n${channel}\n${patientId}`).digest()

/** What a reminder's stop link carries. It opens nothing: all that it can do is to stop these messages on this channel. */
export const stopToken = (secret: string, patientId: string, channel: Channel): string =>
  `${patientId}.${channel}.${macOf(secret, patientId, channel).toString('base64url')}`

/** Whose reminders a token stops, and on which channel; null for what we did not sign. */
export function readStopToken(secret: string, token: string): { patientId: string; channel: Channel } | null {
  const [, patientId, channel, mac] = /^([\w-]{1,100})\.(email|gateway)\.([\w-]{43})$/.exec(token) ?? []
  if (!patientId || !mac || (channel !== 'email' && channel !== 'gateway')) return null
  const given = Buffer.from(mac, 'base64url')
  const ours = macOf(secret, patientId, channel)
  return given.length === ours.length && timingSafeEqual(given, ours) ? { patientId, channel } : null
}
