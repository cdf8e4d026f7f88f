import { contactText } from '@/lib/domain/call-person.ts'
import type { OnCallView } from '@/lib/domain/escalation.ts'
import { clockTime, fullDate } from '@/lib/domain/local-time.ts'
import css from './on-call.module.css'

type Props = { identity: NonNullable<OnCallView['identity']>; at: string; clinicZone: string }

const dial = (phone: string) => `tel:${phone.replace(/[^\d+]/g, '')}`

/** Who the patient is and whom to call, in order, with what may be said to each. */
export function Identity({ identity, at, clinicZone }: Props) {
  const {
    patientId,
    name,
    birthDate,
    recordNumber,
    phone,
    timeZone,
    language,
    interpreter,
    contacts,
    weighs,
  } = identity
  const callable = contacts.filter(({ mayCall }) => mayCall)
  const isListed = callable.some((one) => one.phone === phone)
  return (
    <section aria-labelledby="who" className={css.part}>
      <h2 id="who">{name}</h2>
      <p>
        Born {fullDate(birthDate)} · record {recordNumber}
        {timeZone === clinicZone ? '' : ` · there it is ${clockTime(at, timeZone)}`}
      </p>
      <ol className={css.numbers}>
        {callable.map((contact) => (
          <li key={`${contact.name} ${contact.relation}`}>
            {contact.phone ? (
              <a className="button" href={dial(contact.phone)}>
                Call {contact.phone}
              </a>
            ) : null}
            <p>
              <b>{contact.name}</b>: {contactText(contact)}
            </p>
          </li>
        ))}
        {phone && !isListed ? (
          <li>
            <a className="button" href={dial(phone)}>
              Call {phone}
            </a>
            <p>The number of the chart. What may be said to whoever answers: not asked.</p>
          </li>
        ) : null}
        {callable.length === 0 && !phone ? (
          <li>No number is noted: a welfare check by local protocol.</li>
        ) : null}
      </ol>
      <p>
        Language: {language ?? 'not asked'}
        {interpreter ? '; interpreter needed' : ''}.
      </p>
      {weighs.map((one) => (
        <p key={one}>{one}</p>
      ))}
      <p>
        <a href={`/patients/${encodeURIComponent(patientId)}`}>
          Sign in: the patient’s page, to record the call
        </a>
      </p>
    </section>
  )
}
