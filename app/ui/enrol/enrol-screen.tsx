'use client'

import Link from 'next/link'
import { useState } from 'react'
import { z } from 'zod'
import { useServerNow } from '@/lib/client/server-time.ts'
import { useSend } from '@/lib/client/use-send.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { CheckInLink } from '../parts/check-in-link.tsx'
import { Choice, Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { type EnrolDraft, enrolFaults, newDrain, newEnrolment, toEnrolment } from './draft.ts'
import { DrainFields } from './drain-fields.tsx'
import css from './enrol.module.css'

const Enrolled = z.looseObject({ patientId: z.string(), link: z.string() })
const MOST_DRAINS = 12

type Props = { asOf: Instant; zone: string; zones: readonly string[] }

/** The short form: the person by two identifiers, their drains with the orders, and the personal link. */
export function EnrolScreen(props: Props) {
  const [times, setTimes] = useState(1)
  return <EnrolForm key={times} {...props} onAnother={() => setTimes(times + 1)} />
}

function EnrolForm({ asOf, zone, zones, onAnother }: Props & { onAnother: () => void }) {
  const now = useServerNow(asOf)
  const [draft, setDraft] = useState<EnrolDraft>(() => newEnrolment(Date.parse(asOf), zone))
  const [own, setOwn] = useState<Record<string, string>>({})
  const [done, setDone] = useState<z.infer<typeof Enrolled> | null>(null)
  const { send, isSending, fault } = useSend('/api/patients', Enrolled, setDone)
  const set = (part: Partial<EnrolDraft>) => setDraft((before) => ({ ...before, ...part }))

  if (done)
    return (
      <div className={css.done}>
        <h1 tabIndex={-1} ref={(heading) => heading?.focus()}>
          {draft.name} is enrolled
        </h1>
        <CheckInLink link={done.link} />
        <p className={form.row}>
          <Link className="button" href={`/patients/${done.patientId}`}>
            To the patient’s page
          </Link>
          <button type="button" onClick={onAnother}>
            Enrol another
          </button>
        </p>
      </div>
    )

  // The door names plan and bag by its own paths; the form has them under orders.
  const theirs = Object.fromEntries(
    (fault?.fields ?? []).map(({ field, message }) => [
      field
        .replace(/\.plan\.flush(\.volumeMl)?$/, '.orders.flushMl')
        .replace('.plan.flush.everyHours', '.orders.flushEveryHours')
        .replace('.plan.', '.orders.')
        .replace('.bagCapacityMl', '.orders.bagCapacityMl'),
      message,
    ]),
  )
  const faults = { ...theirs, ...own }
  return (
    <form
      noValidate
      className={css.form}
      onSubmit={(event) => {
        event.preventDefault()
        const found = enrolFaults(draft)
        setOwn(found)
        if (Object.keys(found).length === 0 && !fault?.stored) send(toEnrolment(draft))
        else queueMicrotask(() => document.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
      }}
    >
      <h1>Enrol a patient</h1>
      <p className={form.hint}>Adults only: the rules are not made for children.</p>
      <section className={css.part} aria-labelledby="person">
        <h2 id="person">Person</h2>
        <div className={form.row}>
          <Field label="Full name" fault={faults.name}>
            {(wired) => (
              <input
                {...wired}
                size={32}
                maxLength={200}
                autoComplete="off"
                value={draft.name}
                onChange={(event) => set({ name: event.target.value })}
              />
            )}
          </Field>
          <Field label="Birth date" fault={faults.birthDate}>
            {(wired) => (
              <input
                {...wired}
                type="date"
                value={draft.birthDate}
                onChange={(event) => set({ birthDate: event.target.value })}
              />
            )}
          </Field>
          <Field label="Record number" fault={faults.recordNumber}>
            {(wired) => (
              <input
                {...wired}
                size={14}
                maxLength={40}
                autoComplete="off"
                value={draft.recordNumber}
                onChange={(event) => set({ recordNumber: event.target.value })}
              />
            )}
          </Field>
        </div>
        <div className={form.row}>
          <Field label="Phone" fault={faults.phone}>
            {(wired) => (
              <input
                {...wired}
                type="tel"
                size={18}
                maxLength={40}
                autoComplete="off"
                value={draft.phone}
                onChange={(event) => set({ phone: event.target.value })}
              />
            )}
          </Field>
          <Field label="Language" hint="empty: as here" fault={faults.language}>
            {(wired) => (
              <input
                {...wired}
                size={14}
                maxLength={40}
                autoComplete="off"
                value={draft.language}
                onChange={(event) => set({ language: event.target.value })}
              />
            )}
          </Field>
          <div className={css.check}>
            <Choice
              type="checkbox"
              checked={draft.interpreter}
              onChange={(interpreter) => set({ interpreter })}
            >
              interpreter needed
            </Choice>
          </div>
          <Field label="Time zone of the patient" fault={faults.timeZone}>
            {(wired) => (
              <select
                {...wired}
                value={draft.timeZone}
                onChange={(event) => set({ timeZone: event.target.value })}
              >
                {zones.map((name) => (
                  <option key={name} value={name}>
                    {name.replaceAll('_', ' ')}
                  </option>
                ))}
              </select>
            )}
          </Field>
        </div>
      </section>
      {draft.drains.map((drain, i) => (
        <section key={drain.key} className={css.part} aria-labelledby={`drain-${drain.key}`}>
          <div className={css.head}>
            <h2 id={`drain-${drain.key}`}>{draft.drains.length > 1 ? `Drain ${i + 1}` : 'Drain'}</h2>
            {draft.drains.length > 1 ? (
              <button
                type="button"
                data-quiet
                onClick={() => set({ drains: draft.drains.filter((_, at) => at !== i) })}
              >
                Remove drain {i + 1}
              </button>
            ) : null}
          </div>
          <DrainFields
            drain={drain}
            path={`drains[${i}]`}
            faults={faults}
            onChange={(next) => set({ drains: draft.drains.map((one, at) => (at === i ? next : one)) })}
          />
        </section>
      ))}
      {draft.drains.length < MOST_DRAINS ? (
        <p>
          <button
            type="button"
            onClick={() =>
              set({
                drains: [
                  ...draft.drains,
                  newDrain(Math.max(...draft.drains.map(({ key }) => key)) + 1, now, draft.timeZone),
                ],
              })
            }
          >
            Another drain
          </button>
        </p>
      ) : null}
      {fault || Object.keys(own).length > 0 ? (
        <div role="alert" className={form.trouble}>
          <p>
            {Object.keys(own).length > 0 ? 'Something above still needs a look; it is marked.' : fault?.text}
          </p>
          {(Object.keys(own).length > 0 ? [] : (fault?.fields ?? [])).map(({ field, message }) => (
            <p key={field}>
              {field} {message}
            </p>
          ))}
        </div>
      ) : null}
      <p>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Sending' : 'Enrol and make the link'}
        </button>
      </p>
    </form>
  )
}
