import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { findingLabels, urgencyLabels } from '../domain/labels.ts'
import { cautions } from '../domain/project.ts'
import { FindingCode, Urgency } from '../domain/words.ts'
import type { DueLetter } from '../store/outbox-due.ts'
import { NotToBeSent } from './held-back.ts'
import { onCallWords } from './on-call-letter.ts'
import { reminderWords } from './reminder-letter.ts'
import type { Message } from './transport.ts'

export type Words = Omit<Message, 'id'>

/** Where letters lead, who is told of what cannot wait, and what stop links are signed with. */
export type House = { origin: string; onCall: string | null; secret: string }

/** Letters of one lane wait for each other, and for no others: what cannot wait goes before and beside the rest. */
export const lanes = {
  pressing: { by: 'mail', only: ['pressing-flags', 'on-call'] },
  'pressing-text': { by: 'gateway', only: ['on-call-text'] },
  gateway: { by: 'gateway', only: ['reminder-text'] },
  mail: { by: 'mail', but: ['pressing-flags', 'on-call', 'on-call-text', 'reminder-text'] },
} as const
export type Lane = keyof typeof lanes

type Writer = (letter: DueLetter, house: House, now: Date) => Words | Promise<Words>

const ResetPassword = z.strictObject({ to: z.email(), name: z.string(), link: z.url() })
const PressingFlags = z.looseObject({
  flags: z.array(z.looseObject({ code: FindingCode, urgency: Urgency, actBy: Instant })).min(1),
})

/** What each kind of letter says. None names a patient: mail is read on many screens. */
const kinds: Readonly<Record<string, Writer>> = {
  'on-call': onCallWords('email'),
  'on-call-text': onCallWords('gateway'),
  reminder: reminderWords('email'),
  'reminder-text': reminderWords('gateway'),
  'reset-password': ({ body }) => {
    const { to, name, link } = ResetPassword.parse(JSON.parse(body))
    return {
      to,
      subject: 'Outflow Round: set your password',
      text: lines(
        `Dear ${name},`,
        'Somebody, most likely you, asked to set a new password for your account. Open this link within an hour; it works once:',
        link,
        'If it was not you, do nothing: your password stays as it is. Tell your administrator if this happens again.',
      ),
    }
  },
  'pressing-flags': ({ body, patientId }, { origin, onCall }) => {
    if (!onCall) throw new NotToBeSent('nobody to tell: OUTFLOW_ONCALL_EMAIL is not set')
    const { flags } = PressingFlags.parse(JSON.parse(body))
    return {
      to: onCall,
      subject: 'Outflow Round: a patient cannot wait',
      text: lines(
        ...flags.map(
          ({ code, urgency, actBy }) =>
            `${urgencyLabels[urgency]}: ${findingLabels[code]}. Act by ${actBy} (UTC).`,
        ),
        `Sign in and look: ${origin}/patients/${patientId}`,
        cautions,
      ),
    }
  },
}

const lines = (...paragraphs: string[]) => `${paragraphs.join('\n\n')}\n`

/**
 * The words of a letter, and to whom they go, as things stand when it is sent.
 * @throws NotToBeSent, NotYet; Error for a kind that nobody writes, or a body that does not fit its kind
 */
export async function wordsOf(letter: DueLetter, house: House, now: Date): Promise<Words> {
  const write = kinds[letter.kind]
  if (!write) throw new Error(`no letter is of the kind ${letter.kind}`)
  return write(letter, house, now)
}
