import { contactText } from '@/lib/domain/call-person.ts'
import { generalLabels } from '@/lib/domain/labels.ts'
import { languages } from '@/lib/domain/languages.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './patient.module.css'

const answer = (value: boolean | null | undefined) => (value == null ? 'not asked' : value ? 'yes' : 'no')

/** Whom to call in order and what may be said to each, how they are spoken to, and what weighs on a call. */
export function PersonPanel({ page, onEdit }: { page: PatientPage; onEdit: (() => void) | null }) {
  const { patient, record } = page
  const { profile } = patient
  const contacts = profile?.contacts ?? []
  const onlyKidney = record.drains.some((drain) => drain.onlyKidney)
  const usual = [
    record.usual?.pain ? `pain ${record.usual.pain} of 10` : null,
    ...(record.usual?.general ?? []).map((word) => generalLabels[word]),
  ].filter(Boolean)
  const facts: readonly [string, string][] = [
    ['Language', patient.language ?? 'not asked'],
    ['Interpreter', patient.interpreter ? 'needed' : 'no'],
    ['Check-in page in', profile ? languages[profile.checkInLanguage].name : languages.en.name],
    ['Blood thinners', answer(profile?.anticoagulant)],
    ['Weakened immune system', answer(profile?.immunosuppressed)],
    ['Allergies', profile?.allergies ?? 'not asked'],
    ['Only kidney', onlyKidney ? 'yes' : 'not noted'],
    ['Thermometer at home', answer(profile?.thermometer)],
    ['Teach-back done', answer(profile?.teachBack)],
    ['Usual for them', usual.length > 0 ? usual.join(', ') : 'nothing noted'],
    ['Time zone', patient.timeZone.replaceAll('_', ' ')],
  ]
  return (
    <section aria-labelledby="person" className={css.section}>
      <h2 id="person">Person and calls</h2>
      {contacts.length === 0 ? (
        <p className={css.quiet}>Whom to call besides the patient: not asked.</p>
      ) : (
        <ol className={css.contacts}>
          {contacts.map((contact) => (
            <li key={`${contact.name} ${contact.relation}`}>
              <b>{contact.name}</b>: {contactText(contact)}
            </li>
          ))}
        </ol>
      )}
      <dl className={css.facts}>
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className={value === 'not asked' ? css.quiet : undefined}>{value}</dd>
          </div>
        ))}
      </dl>
      {onEdit ? (
        <button type="button" data-quiet className={css.edit} onClick={onEdit}>
          Change the details
        </button>
      ) : null}
    </section>
  )
}
