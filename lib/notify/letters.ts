import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { cautions, findingLabels, urgencyLabels } from '../domain/labels.ts'
import { FindingCode, Urgency } from '../domain/words.ts'
import type { DueLetter } from '../store/outbox-due.ts'
import type { Mail } from './transport.ts'

export type Words = Pick<Mail, 'to' | 'subject' | 'text'>

/** Where letters lead, and who is told of what cannot wait. */
export type House = { origin: string; onCall: string | null }

/** A letter that is not to be sent, now or later: for the outbox, with the reason. */
export class NotToBeSent extends Error {}

const ResetPassword = z.strictObject({ to: z.email(), name: z.string(), link: z.url() })
const PressingFlags = z.looseObject({
  flags: z.array(z.looseObject({ code: FindingCode, urgency: Urgency, actBy: Instant })).min(1),
})

/** What each kind of letter says. None names a patient: mail is read on many screens. */
const kinds: Readonly<Record<string, (letter: DueLetter, house: House) => Words>> = {
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
 * The words of a letter.
 * @throws NotToBeSent; Error for a kind that nobody writes, or a body that does not fit its kind
 */
export function wordsOf(letter: DueLetter, house: House): Words {
  const write = kinds[letter.kind]
  if (!write) throw new Error(`no letter is of the kind ${letter.kind}`)
  return write(letter, house)
}
