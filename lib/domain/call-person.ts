import { discloseLabels } from './labels.ts'
import type { PatientPage } from './patient-page.ts'
import type { Contact, Profile } from './profile.ts'

/** Relation of the first contact: the patient. */
const SELF = 'self'

/** One contact with what was agreed about calling them. */
export function contactText({ relation, phone, mayCall, mayVoicemail, mayDisclose }: Contact): string {
  if (!mayCall) return `${relation === SELF ? 'the patient' : relation}; not to be called`
  return [
    relation === SELF ? 'the patient' : relation,
    phone ?? 'no number noted',
    mayVoicemail ? 'voicemail allowed' : 'no voicemail',
    `may be told ${discloseLabels[mayDisclose]}`,
  ].join('; ')
}

/** The number to call first: of the first contact who agreed to it, else the one of the chart. Never a dead person's own. */
export function numberToCall({
  patient,
  followUp,
}: Pick<PatientPage, 'patient' | 'followUp'>): string | null {
  const hasDied = followUp.reason === 'died'
  const contacts = (patient.profile?.contacts ?? []).filter(
    ({ relation, phone, mayCall }) => mayCall && phone !== null && !(hasDied && relation === SELF),
  )
  return contacts[0]?.phone ?? (hasDied ? null : patient.phone)
}

/**
 * Whom to ask for on the phone, in order; what may be said to each. Nobody asked is said, not left out; nobody asks
 * for somebody who has died.
 */
export function whomToCall(profile: Profile | null, hasDied = false): string {
  const callable =
    profile?.contacts.filter(({ mayCall, relation }) => mayCall && !(hasDied && relation === SELF)) ?? []
  if (callable.length === 0)
    return (profile?.contacts.length ?? 0) > 0
      ? 'Nobody agreed to be called: see the contacts below.'
      : 'Whom to call besides the patient: not asked.'
  const [first, ...others] = callable.map(one)
  return others.length === 0
    ? `Ask for ${first}.`
    : `Ask for ${first}; if not there, ${others.join('; then ')}.`
}

function one({ name, relation, phone, mayVoicemail, mayDisclose }: Contact): string {
  const who = relation === SELF ? name : `${name} (${relation}${phone ? `, ${phone}` : ''})`
  const told =
    relation === SELF && mayDisclose === 'everything' ? null : `may be told ${discloseLabels[mayDisclose]}`
  const limits = [told, mayVoicemail ? null : 'no voicemail'].filter(Boolean)
  return limits.length > 0 ? `${who}: ${limits.join(', ')}` : who
}

/** What makes a call more urgent, or changes what is said in it; what was not asked is named as such. */
export function weighsOnCall(profile: Profile | null): string[] {
  const { anticoagulant = null, immunosuppressed = null, allergies = null } = profile ?? {}
  const has = [
    anticoagulant ? 'takes blood thinners' : null,
    immunosuppressed ? 'weakened immune system' : null,
    allergies ? `allergies: ${allergies}` : null,
  ].filter(Boolean)
  const unknown = [
    anticoagulant === null ? 'blood thinners' : null,
    immunosuppressed === null ? 'immune system' : null,
    allergies === null ? 'allergies' : null,
  ].filter(Boolean)
  return [
    ...(has.length > 0 ? [`Weighs on the call: ${has.join('; ')}.`] : []),
    ...(unknown.length > 0 ? [`Not asked: ${unknown.join(', ')}.`] : []),
  ]
}
