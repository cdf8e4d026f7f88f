import { z } from 'zod'
import { FlaggedUrgency } from '../domain/after-hours.ts'
import { Instant, TimeZone } from '../domain/instant.ts'
import { urgencyLabels } from '../domain/labels.ts'
import { clockTime } from '../domain/local-time.ts'
import { cautions } from '../domain/project.ts'
import { escalationById } from '../store/escalations.ts'
import { read } from '../store/index.ts'
import type { DueLetter } from '../store/outbox-due.ts'
import { NotToBeSent } from './held-back.ts'
import type { House, Words } from './letters.ts'
import { onCallToken } from './on-call-token.ts'

/** What the letter is made of, besides how things stand when it is sent. It names no patient, and holds no secret. */
export const OnCallBody = z.strictObject({
  to: z.string(),
  escalation: z.string(),
  step: z.string(),
  clinic: z.string(),
  timeZone: TimeZone,
  urgency: FlaggedUrgency,
  about: z.string(),
  actBy: Instant.nullable(),
  isOfSystem: z.boolean(),
  /** Who is asked if nobody says 'I have it' by then. */
  thenAsked: z.string().nullable(),
  passedOnAt: Instant.nullable(),
  /** It goes to whoever has it already: something further has come. */
  isNews: z.boolean(),
})
export type OnCallBody = z.infer<typeof OnCallBody>

/**
 * The message to the person on call. Asked at the moment of sending: what somebody has meanwhile, or what is over, is
 * not sent any more, so that nobody is woken for nothing.
 */
export const onCallWords =
  (way: 'email' | 'gateway') =>
  async ({ body }: DueLetter, house: House): Promise<Words> => {
    const letter = OnCallBody.parse(JSON.parse(body))
    const standing = await read((tx) => escalationById(tx, letter.escalation))
    if (!standing || standing.endedAt !== null) throw new NotToBeSent('it is over')
    if (standing.haveItAt !== null && !letter.isNews) throw new NotToBeSent(`${standing.haveItBy} has it`)
    const link = `${house.origin}/on-call/${letter.escalation}#${onCallToken(house.secret, letter.step)}`
    const title = titleOf(letter)
    return {
      type: 'on-call',
      language: 'en',
      to: letter.to,
      subject: `Outflow Round: ${letter.isOfSystem ? 'the system needs somebody' : 'a patient cannot wait'}`,
      text: way === 'email' ? mailOf(letter, title, link) : shortOf(letter, title, link),
    }
  }

const titleOf = ({ clinic, isOfSystem, isNews }: OnCallBody) =>
  isOfSystem
    ? `${clinic}: the system itself needs somebody.`
    : isNews
      ? `${clinic}: something further has come for the patient whom you have.`
      : `${clinic}: a patient cannot wait.`

function whatOf({ urgency, about, actBy, timeZone, isOfSystem }: OnCallBody): string {
  if (isOfSystem) return about
  const by = actBy ? ` Act by ${clockTime(actBy, timeZone)} (clinic time).` : ''
  return `${urgencyLabels[urgency]}: ${about}.${by}`
}

function nextOf({ thenAsked, passedOnAt, timeZone, isNews }: OnCallBody): string {
  if (isNews) return 'You have it: the page shows what has come.'
  const then =
    thenAsked && passedOnAt ? ` From ${clockTime(passedOnAt, timeZone)} ${thenAsked} is asked.` : ''
  return `Until somebody says ‘I have it’ the message is repeated.${then}`
}

const mailOf = (letter: OnCallBody, title: string, link: string) =>
  `${[title, whatOf(letter), `Open the page and say ‘I have it’, or pass it on:\n${link}`, nextOf(letter), 'The link is yours: do not forward it.', cautions].join('\n\n')}\n`

const shortOf = (letter: OnCallBody, title: string, link: string) =>
  [title, whatOf(letter), `Say ‘I have it’, or pass it on: ${link}`, cautions].join('\n')
