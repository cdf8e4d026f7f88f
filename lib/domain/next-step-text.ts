import { capital } from './capital.ts'
import { discloseLabels } from './labels.ts'
import { when } from './local-time.ts'
import type { NextStep } from './next-step.ts'
import type { NextTry } from './next-try-said.ts'

const asks = {
  'on-call': 'tell the person on call',
  'welfare-check': 'ask for a welfare check by local protocol',
  contacts: 'call the contacts',
} as const

/** What comes next after attempts without an answer, in one sentence; times are the clinic's. */
export function nextStepText(next: NextStep, now: number, zone: string): string {
  if (next.step === 'try-again')
    return Date.parse(next.at) > now ? `Try again at ${when(next.at, now, zone)}.` : 'Try again now.'
  if (next.step === 'call-contact') {
    const { name, relation, phone, mayDisclose, mayVoicemail } = next.contact
    return `Call ${name} (${[relation, phone].filter(Boolean).join(', ')}): may be told ${discloseLabels[mayDisclose]}${mayVoicemail ? '' : '; no voicemail'}.`
  }
  if (next.step === 'used-up') return 'Every try of the clinic’s rule is used up: decide by local protocol.'
  return `${capital(next.ask.map((one) => asks[one]).join('; then '))}.`
}

/** The same with the time from which it is due, as a row carries it. */
export const nextTryOf = (next: NextStep | null, now: number, zone: string): NextTry | null =>
  next === null ? null : { at: next.at, says: nextStepText(next, now, zone) }
