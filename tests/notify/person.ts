import type { Profile } from '../../lib/domain/profile.ts'
import { enrol, receiveReport } from '../../lib/intake/index.ts'
import type { House } from '../../lib/notify/letters.ts'
import type { Message, Transport, Transports } from '../../lib/notify/transport.ts'
import { read } from '../../lib/store/index.ts'
import { at, CLINIC, enrolment, nurse, wellReport } from '../store/clinic.ts'

export const house: House = { origin: 'https://round.example', onCall: null, secret: 's'.repeat(32) }

export const profile = (change: Partial<Profile> = {}): Profile => ({
  contacts: [
    {
      name: 'Ada Invented',
      relation: 'self',
      phone: '+1 555 0101',
      email: 'ada@home.example',
      mayCall: true,
      mayVoicemail: false,
      mayDisclose: 'call-back-only',
    },
  ],
  checkInLanguage: 'en',
  anticoagulant: null,
  immunosuppressed: null,
  allergies: null,
  thermometer: null,
  teachBack: null,
  reminders: { channel: 'email', at: '09:00' },
  ...change,
})

/** An invented person who wants reminders, enrolled at hour 0: one in the morning in Denver. */
export async function person(change: Partial<Profile> = {}, count = 1) {
  const body = enrolment({ profile: profile(change) })
  const drains = Array.from({ length: count }, (_, i) => ({ ...body.drains[0], label: `tube ${i + 1}` }))
  const { patientId } = await enrol(nurse, { ...body, drains }, crypto.randomUUID(), at(0))
  const found = await read((tx) => tx.drain.findMany({ where: { patientId }, orderBy: { ordinal: 'asc' } }))
  return { patientId, drains: found.map(({ id }) => id) }
}

/** A report of all is well, received at that hour. */
export const log = (patientId: string, drain: string, hours: number) =>
  receiveReport(
    {
      clinicId: CLINIC,
      patientId,
      door: 'check-in',
      source: patientId,
      by: null,
      key: crypto.randomUUID(),
      body: wellReport(drain, hours),
    },
    at(hours),
  )

/** Transports that keep what they are given, and fail as long as they are told to. */
export function memory() {
  const sent: Message[] = []
  const state = { fails: false }
  const one: Transport = {
    name: 'memory',
    send: async (message) => {
      if (state.fails) throw new Error('connection refused')
      sent.push(message)
    },
  }
  const transports: Transports = { mail: one, gateway: one }
  return { sent, state, transports }
}
