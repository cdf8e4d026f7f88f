import type { Language } from '../languages.ts'
import { ar } from './reminder-ar.ts'
import { en } from './reminder-en.ts'
import { es } from './reminder-es.ts'

/**
 * What a reminder says, and the page that stops it. It may be read over a shoulder, on a lock screen or in a
 * shared mailbox: so nothing of health, of a tube, or of a name stands in it.
 */
export type ReminderTexts = {
  subject: string
  ask: string
  where: string
  questions: (phone: string) => string
  emergency: string
  toStop: string
  stopTitle: string
  stopAsk: string
  stopButton: string
  stopped: string
  again: (phone: string) => string
  notValid: string
}

export const reminderTexts: Readonly<Record<Language, ReminderTexts>> = { en, es, ar }
