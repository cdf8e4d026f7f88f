'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { clinicSettingsQuery } from '@/lib/client/settings-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { ClinicSettingsPage } from '@/lib/domain/clinic-hours.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { draftOfClinic, toClinicSettings } from './clinic-draft.ts'
import { HolidaysFields } from './holidays-fields.tsx'
import { HoursFields } from './hours-fields.tsx'
import css from './settings.module.css'

/** The clinic's numbers, opening hours, holidays and quiet hours. */
export function ClinicScreen({ zone }: { zone: string }) {
  const { data } = useSuspenseQuery(clinicSettingsQuery)
  const [says, setSays] = useState('')
  return (
    <>
      <h1>Clinic</h1>
      <p className={form.hint}>
        {data.changedAt && data.changedBy
          ? `Last changed ${dayAndTime(data.changedAt, zone)} by ${data.changedBy}.`
          : 'Not changed since the clinic was set up.'}{' '}
        Patients see a change the next time their page has a network.
      </p>
      <p role="status">{says}</p>
      <ClinicForm
        key={data.changedAt ?? 'first'}
        page={data}
        zone={zone}
        onSaved={() => setSays('The settings are saved.')}
      />
    </>
  )
}

type Props = { page: ClinicSettingsPage; zone: string; onSaved: () => void }

function ClinicForm({ page, zone, onSaved }: Props) {
  const [draft, setDraft] = useState(() => draftOfClinic(page.settings))
  const { send, isSending, fault } = useSend('/api/clinic', ClinicSettingsPage, onSaved)
  const text = (name: 'phone' | 'afterHoursPhone' | 'quietFrom' | 'quietUntil') => ({
    value: draft[name],
    onChange: (event: { target: { value: string } }) => setDraft({ ...draft, [name]: event.target.value }),
  })
  return (
    <form
      noValidate
      className={css.form}
      onSubmit={(event) => {
        event.preventDefault()
        if (!fault?.stored) send(toClinicSettings(draft))
      }}
    >
      <section className={css.part} aria-labelledby="numbers">
        <h2 id="numbers">Whom patients call</h2>
        <div className={form.row}>
          <Field label="Phone" fault={faultOf(fault, 'phone')}>
            {(wired) => <input {...wired} type="tel" size={18} maxLength={40} {...text('phone')} />}
          </Field>
          <Field
            label="Phone outside opening hours"
            hint="empty: none"
            fault={faultOf(fault, 'afterHoursPhone')}
          >
            {(wired) => <input {...wired} type="tel" size={18} maxLength={40} {...text('afterHoursPhone')} />}
          </Field>
        </div>
      </section>
      <section className={css.part} aria-labelledby="hours">
        <h2 id="hours">Opening hours</h2>
        <p className={form.hint}>Clinic time ({zone}). 23:59 is the end of the day.</p>
        <HoursFields draft={draft} set={setDraft} fault={fault} />
      </section>
      {draft.saysHours ? (
        <section className={css.part} aria-labelledby="holidays">
          <h2 id="holidays">Holidays</h2>
          <p className={form.hint}>Days on which nobody reads, whatever the weekday.</p>
          <HolidaysFields draft={draft} set={setDraft} fault={fault} />
        </section>
      ) : null}
      <section className={css.part} aria-labelledby="quiet">
        <h2 id="quiet">Quiet hours</h2>
        <p className={form.hint}>No reminder is sent between these, by the clock on the patient’s wall.</p>
        <div className={form.row}>
          <Field label="From" fault={faultOf(fault, 'quiet.from')}>
            {(wired) => <input {...wired} type="time" {...text('quietFrom')} />}
          </Field>
          <Field label="Until" fault={faultOf(fault, 'quiet.until')}>
            {(wired) => <input {...wired} type="time" {...text('quietUntil')} />}
          </Field>
        </div>
      </section>
      {fault ? (
        <p role="alert" className={form.trouble}>
          {fault.text}
        </p>
      ) : null}
      <p>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Saving' : 'Save the settings'}
        </button>
      </p>
    </form>
  )
}
