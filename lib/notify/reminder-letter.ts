import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import type { Contact, Profile } from '../domain/profile.ts'
import { isQuiet, nextFree, usualQuietHours } from '../domain/quiet-hours.ts'
import { type ReminderTexts, reminderTexts } from '../domain/texts/reminder.ts'
import { read } from '../store/index.ts'
import type { DueLetter } from '../store/outbox-due.ts'
import { isOvertaken, type ReminderFacts, reminderFactsOf } from '../store/reminders.ts'
import { NotToBeSent, NotYet } from './held-back.ts'
import type { House, Words } from './letters.ts'
import { type Channel, stopToken } from './stop-token.ts'

const Body = z.strictObject({ channel: z.enum(['email', 'gateway']), until: Instant })

/**
 * A reminder in the patient's language. Whether it may still go out is asked here, at the moment of sending:
 * between its writing and now a report may have come, the patient may have stopped it, or follow-up ended.
 */
export const reminderWords =
  (channel: Channel) =>
  async (letter: DueLetter, house: House, now: Date): Promise<Words> => {
    const { patientId } = letter
    const { until } = Body.parse(JSON.parse(letter.body))
    if (patientId === null) throw new Error('a reminder is of a patient')
    if (Date.parse(until) <= now.getTime()) throw new NotToBeSent('its time has passed')
    const facts = await read((tx) => reminderFactsOf(tx, patientId))
    if (!facts) throw new NotToBeSent('the patient is not there any more')
    const profile = stillWanted(facts, letter, channel)
    if (await read((tx) => isOvertaken(tx, patientId, letter.id)))
      throw new NotToBeSent('a later reminder took its place')
    holdInQuietHours(facts, until, now)
    const to = addressOf(profile.contacts[0], channel)
    const texts = reminderTexts[profile.checkInLanguage]
    const page = `${house.origin}/check-in/${encodeURIComponent(facts.clinicId)}`
    const token = encodeURIComponent(stopToken(house.secret, patientId, channel))
    const stop = `${house.origin}/stop?t=${token}`
    return {
      to,
      language: profile.checkInLanguage,
      subject: texts.subject,
      text: channel === 'email' ? mailOf(texts, facts, page, stop) : textMessageOf(texts, facts, page, stop),
      ...(channel === 'email' ? { stopAddress: `${house.origin}/api/stop?t=${token}` } : {}),
    }
  }

function stillWanted(facts: ReminderFacts, letter: DueLetter, channel: Channel): Profile {
  const { profile, followUpEnded, inHospital, lastHeardAt } = facts
  if (followUpEnded) throw new NotToBeSent('follow-up has ended')
  if (inHospital) throw new NotToBeSent('the patient is in hospital')
  if (profile?.reminders.channel !== channel)
    throw new NotToBeSent('reminders were stopped or go another way')
  if (lastHeardAt !== null && Date.parse(lastHeardAt) >= Date.parse(letter.recordedAt))
    throw new NotToBeSent('a report has come')
  return profile
}

function holdInQuietHours({ quiet, zone }: ReminderFacts, until: string, now: Date): void {
  const hours = quiet ?? usualQuietHours
  if (!isQuiet(now.getTime(), hours, zone)) return
  const free = nextFree(now.getTime(), hours, zone)
  if (free >= Date.parse(until)) throw new NotToBeSent('quiet hours last until its time has passed')
  throw new NotYet(new Date(free))
}

/** The patient's own address: the first contact, and only as consented. */
function addressOf(own: Contact | undefined, channel: Channel): string {
  if (own?.relation !== 'self') throw new NotToBeSent('no contact of the patient’s own is known')
  if (channel === 'email') {
    if (own.email === null) throw new NotToBeSent('the patient’s e-mail address is not known')
    return own.email
  }
  if (!own.phone) throw new NotToBeSent('the patient’s phone number is not known')
  if (!own.mayCall) throw new NotToBeSent('the patient does not agree to be reached by phone')
  return own.phone
}

const mailOf = (texts: ReminderTexts, { clinicPhone }: ReminderFacts, page: string, stop: string) =>
  `${[texts.ask, `${texts.where}\n${page}`, texts.questions(clinicPhone), texts.emergency, `${texts.toStop}\n${stop}`].join('\n\n')}\n`

const textMessageOf = (texts: ReminderTexts, { clinicPhone }: ReminderFacts, page: string, stop: string) =>
  [`${texts.ask} ${page}`, texts.questions(clinicPhone), `${texts.toStop} ${stop}`].join('\n')
