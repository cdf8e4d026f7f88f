import { newKey } from '@/lib/client/new-key.ts'
import type { Discharge } from '@/lib/domain/discharge.ts'
import type { Enrolment } from '@/lib/domain/enrolment.ts'
import type { Language } from '@/lib/domain/languages.ts'
import { ordersFieldOf } from '../parts/orders-draft.ts'
import {
  draftOfProfile,
  draftOfUsual,
  type ProfileDraft,
  profileDraftFaults,
  toProfile,
  toUsual,
  type UsualDraft,
  usualFaults,
} from '../parts/profile-draft.ts'
import { type DrainDraft, drainFaults, newDrain, type Offered, toDrain } from './drain-draft.ts'

/** Where the form begins: the clinic's zone, what it offers, and the discharge that is to be enrolled. */
export type Start = {
  zone: string
  offered: Offered
  discharge: Pick<Discharge, 'id' | 'name' | 'birthDate' | 'recordNumber' | 'phone' | 'drainKind'> | null
}

/** The whole form. It is kept in the tab until it is stored, its key with it: so a repeat stores nothing twice. */
export type EnrolDraft = {
  key: string
  name: string
  birthDate: string
  recordNumber: string
  language: string
  interpreter: boolean
  timeZone: string
  profile: ProfileDraft
  usual: UsualDraft
  drains: DrainDraft[]
  /** Patients alike who were looked at and are somebody else. */
  notSameAs: string[]
  discharge: string | null
}

export function newEnrolment({ zone, offered, discharge }: Start): EnrolDraft {
  const profile = draftOfProfile()
  return {
    key: newKey(),
    name: discharge?.name ?? '',
    birthDate: discharge?.birthDate ?? '',
    recordNumber: discharge?.recordNumber ?? '',
    language: '',
    interpreter: false,
    timeZone: zone,
    profile: {
      ...profile,
      contacts: profile.contacts.map((self) => ({ ...self, phone: discharge?.phone ?? '' })),
    },
    usual: draftOfUsual(),
    drains: [newDrain(1, offered, discharge?.drainKind ?? undefined)],
    notSameAs: [],
    discharge: discharge?.id ?? null,
  }
}

/** The language of the page that goes with a language somebody typed; undefined where we have none of it. */
export function pageLanguageFor(typed: string): Language | undefined {
  const word = typed.trim().toLowerCase()
  if (word === '' || /^(engl|ingl)/.test(word)) return 'en'
  if (/^(span|espa|cast)/.test(word)) return 'es'
  return /^(arab|عرب)/.test(word) ? 'ar' : undefined
}

/** What is missing or wrong before it is sent, under the paths that the door uses too. */
export function enrolFaults(
  draft: EnrolDraft,
  clinicZone: string,
  now: number,
  alike: readonly string[] = [],
): Record<string, string> {
  const faults: Record<string, string> = {}
  const below = (path: string, found: Record<string, string>) => {
    for (const [field, text] of Object.entries(found)) faults[`${path}.${field}`] = text
  }
  if (!draft.name.trim()) faults.name = 'The full name.'
  if (!/^\d{4}-\d{2}-\d{2}$/.test(draft.birthDate)) faults.birthDate = 'The birth date.'
  if (!draft.recordNumber.trim()) faults.recordNumber = 'The record number of the chart.'
  if (alike.some((id) => !draft.notSameAs.includes(id)))
    faults.notSameAs = 'Look whether this is the same person, and say so here.'
  below('profile', profileDraftFaults(draft.profile))
  below('usual', usualFaults(draft.usual))
  const zones = { patient: draft.timeZone, clinic: clinicZone }
  draft.drains.forEach((drain, i) => {
    below(`drains[${i}]`, drainFaults(drain, zones, now))
  })
  return faults
}

/** Faults that the door found, by the field of the form that shows each. */
export function doorFaults(fields: readonly { field: string; message: string }[]): Record<string, string> {
  return Object.fromEntries(
    fields.map(({ field, message }) => {
      const [, drain, rest = ''] = /^(drains\[\d+\])\.(.+)$/.exec(field) ?? []
      const order = drain ? ordersFieldOf(rest) : undefined
      return [drain && order ? `${drain}.orders.${order}` : field, message]
    }),
  )
}

/** The enrolment as the door takes it. */
export function toEnrolment(draft: EnrolDraft, clinicZone: string): Enrolment {
  const zones = { patient: draft.timeZone, clinic: clinicZone }
  return {
    name: draft.name.trim(),
    birthDate: draft.birthDate,
    recordNumber: draft.recordNumber.trim(),
    phone: draft.profile.contacts[0]?.phone.trim() || null,
    timeZone: draft.timeZone,
    language: draft.language.trim() || null,
    interpreter: draft.interpreter,
    usual: toUsual(draft.usual),
    profile: toProfile(draft.profile, draft.name),
    ...(draft.notSameAs.length > 0 ? { notSameAs: draft.notSameAs } : {}),
    ...(draft.discharge ? { discharge: draft.discharge } : {}),
    drains: draft.drains.map((drain) => toDrain(drain, zones)),
  }
}
