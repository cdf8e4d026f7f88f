import type { Weekday } from '../clinic-hours.ts'
import type { Language } from '../languages.ts'
import type { DrainKind, Side } from '../words.ts'
import { handOutAr } from './hand-out-ar.ts'
import { handOutEn } from './hand-out-en.ts'
import { handOutEs } from './hand-out-es.ts'

/**
 * The words of the printed page for a patient, in one language. Fixed sentences: what is put into them are
 * numbers, times, names and what the clinic wrote in its orders, never words of our own. Reading grade 6 or below.
 */
export type HandOutText = {
  /** Stands on a translation that no qualified person has read yet; null in the original. */
  unread: string | null
  title: string
  /** Several things in one sentence. */
  joined: (parts: readonly string[]) => string
  born: (date: string) => string
  made: (date: string) => string
  cautions: string
  demo: string

  call: string
  afterHours: string
  reads: string
  hoursUnknown: string
  closedOn: string
  weekdays: Readonly<Record<Weekday, string>>

  picture: string
  yourRight: string
  yourLeft: string
  places: Readonly<Record<DrainKind, string>>
  sides: Readonly<Record<Side, string>>
  cmAtSkin: (cm: string) => string
  capped: string
  /** How often, from hours: 'once a day', 'every 2 days'. */
  every: (hours: number) => string
  measure: (often: string) => string
  flush: (ml: string, when: string) => string
  flushAt: (times: readonly string[]) => string
  noFlush: string
  dressing: (often: string, type: string | null) => string
  newTube: (days: string) => string
  newTubeBooked: (when: string) => string
  newTubeAsked: string
  takeOut: (plan: string) => string
  takeOutBooked: (when: string) => string
  takeOutAsked: string

  eachTime: string
  steps: { read: string; look: string; write: string; body: string; send: string; sendPaper: string }
  scan: string
  noLink: string

  emergency: string
  emergencyIf: { breath: string; bleeding: string; out: string; infected: string; noAnswer: string }
  callNow: string
  callNowIf: {
    fever: (celsius: string, fahrenheit: string) => string
    out: string
    stops: string
    dwindles: string
    moved: string
    blood: string
    pain: string
  }
  callToday: string
  callTodayIf: { fluid: string; skin: string; flush: string; unwell: string }

  log: {
    title: string
    about: string
    looks: string
    cut: string
    date: string
    time: string
    temperature: string
    ml: string
    look: string
    flush: string
    dressing: string
  }

  /** A local time of day, from '09:00'. */
  time: (clock: string) => string
  /** A local date: month 1 to 12, weekday 0 (Sunday) to 6. */
  date: (date: { weekday: number; day: number; month: number }) => string
  fullDate: (date: { day: number; month: number; year: number }) => string
  dateAndTime: (date: string, time: string) => string
}

export const handOutTexts: Readonly<Record<Language, HandOutText>> = {
  en: handOutEn,
  es: handOutEs,
  ar: handOutAr,
}
