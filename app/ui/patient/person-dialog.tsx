'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { languages } from '@/lib/domain/languages.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { ContactsFields } from '../parts/contacts-fields.tsx'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import {
  draftOfProfile,
  draftOfUsual,
  type ProfileDraft,
  profileDraftFaults,
  toProfile,
  toUsual,
  usualFaults,
} from '../parts/profile-draft.ts'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import { AskedField, UsualFields, WeighsFields } from '../parts/weighs-fields.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; onClose: () => void; onDone: (says: string) => void }

const languageNames = { en: languages.en.name, es: languages.es.name, ar: languages.ar.name } as const
const channelLabels = { none: 'none', email: 'by e-mail', gateway: 'by text message' } as const

/** The profile to be changed; the number of the chart is the patient's own, who is the first contact. */
function draftOf({ profile, phone }: PatientPage['patient']): ProfileDraft {
  const draft = draftOfProfile(profile ?? undefined)
  const [self, ...others] = draft.contacts
  return self ? { ...draft, contacts: [{ ...self, phone: self.phone || (phone ?? '') }, ...others] } : draft
}

/** What is known of the person, changed as a further version; what was known before is kept. */
export function PersonDialog({ page, onClose, onDone }: Props) {
  const { patient, record } = page
  const [person, setPerson] = useState({
    name: patient.name,
    language: patient.language ?? '',
    timeZone: patient.timeZone,
    interpreter: patient.interpreter,
  })
  const [profile, setProfile] = useState(() => draftOf(patient))
  const [usual, setUsual] = useState(() => draftOfUsual(record.usual ?? null))
  const [why, setWhy] = useState('')
  const [faults, setFaults] = useState<Record<string, string>>({})
  const sending = useSend(`${patientDoor(patient.id)}/details`, z.unknown(), () =>
    onDone('The details are changed.'),
  )
  const { fault } = sending
  const change = (part: Partial<typeof person>) => setPerson((before) => ({ ...before, ...part }))
  const set = (part: Partial<ProfileDraft>) => setProfile((before) => ({ ...before, ...part }))
  const refused = Object.fromEntries(
    (fault?.fields ?? []).map(({ field, message }) => [field.replace(/^(profile|usual)\./, ''), message]),
  )
  const shownFaults = { ...refused, ...faults }

  const submit = () => {
    const found: Record<string, string> = {
      ...profileDraftFaults(profile),
      ...usualFaults(usual),
      ...(person.name.trim() ? {} : { name: 'The full name.' }),
      ...(why.trim() ? {} : { why: 'Say why; it is kept with the change.' }),
    }
    setFaults(found)
    if (Object.keys(found).length > 0) return
    sending.send({
      why: why.trim(),
      name: person.name.trim(),
      phone: profile.contacts[0]?.phone.trim() || null,
      language: person.language.trim() || null,
      timeZone: person.timeZone.trim(),
      interpreter: person.interpreter,
      usual: toUsual(usual),
      profile: toProfile(profile, person.name),
    })
  }

  return (
    <PatientDialog wide patient={patient} title="Details of" onClose={onClose}>
      <DialogForm
        main="Change the details"
        sending={sending}
        shown={['why', 'name', 'language', 'timeZone', 'profile', 'usual']}
        onSubmit={submit}
        onClose={onClose}
      >
        <div className={form.row}>
          <TextField
            label="Name"
            size={28}
            maxLength={200}
            value={person.name}
            onChange={(name) => change({ name })}
            fault={shownFaults.name}
          />
          <TextField
            label="Language"
            size={14}
            maxLength={40}
            value={person.language}
            onChange={(language) => change({ language })}
            fault={shownFaults.language}
          />
          <Group legend="Interpreter">
            <Choice
              type="checkbox"
              checked={person.interpreter}
              onChange={(interpreter) => change({ interpreter })}
            >
              needed
            </Choice>
          </Group>
          <TextField
            label="Time zone"
            size={20}
            maxLength={60}
            value={person.timeZone}
            onChange={(timeZone) => change({ timeZone })}
            fault={shownFaults.timeZone}
          />
        </div>
        <ContactsFields contacts={profile.contacts} set={set} faults={shownFaults} />
        <WeighsFields draft={profile} set={set} faults={shownFaults} />
        <UsualFields
          draft={usual}
          set={(part) => setUsual((before) => ({ ...before, ...part }))}
          faults={shownFaults}
        />
        <div className={form.row}>
          <AskedField label="Thermometer at home" name="thermometer" draft={profile} set={set} />
          <AskedField label="Teach-back done" name="teachBack" draft={profile} set={set} />
          <Field label="Check-in page in">
            {(wired) => (
              <Select
                {...wired}
                value={profile.checkInLanguage}
                onChange={(checkInLanguage) => checkInLanguage && set({ checkInLanguage })}
                labels={languageNames}
              />
            )}
          </Field>
          <Field label="Reminders" fault={shownFaults['reminders.channel']}>
            {(wired) => (
              <Select
                {...wired}
                value={profile.channel}
                onChange={(channel) => channel && set({ channel })}
                labels={channelLabels}
              />
            )}
          </Field>
          <TextField
            label="At, their time"
            type="time"
            value={profile.reminderAt}
            onChange={(reminderAt) => set({ reminderAt })}
            fault={shownFaults['reminders.at']}
          />
        </div>
        <TextField
          label="Why"
          size={60}
          maxLength={500}
          value={why}
          onChange={setWhy}
          fault={faults.why ?? faultOf(fault, 'why')}
        />
      </DialogForm>
    </PatientDialog>
  )
}
