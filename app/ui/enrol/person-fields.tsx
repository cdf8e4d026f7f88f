'use client'

import type { Language } from '@/lib/domain/languages.ts'
import { languages } from '@/lib/domain/languages.ts'
import { Choice, Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import { type EnrolDraft, pageLanguageFor } from './draft.ts'
import css from './enrol.module.css'

const pageLanguages = Object.fromEntries(
  Object.entries(languages).map(([code, { name }]) => [code, name]),
) as Record<Language, string>

type Props = {
  draft: EnrolDraft
  set: (part: Partial<EnrolDraft>) => void
  faults: Record<string, string>
  zones: readonly string[]
}

/** Who it is, by two identifiers; and the language and the clock by which the person lives. */
export function PersonFields({ draft, set, faults, zones }: Props) {
  const text = (name: 'name' | 'birthDate' | 'recordNumber') => ({
    value: draft[name],
    onChange: (value: string) => set({ [name]: value }),
    fault: faults[name],
  })
  const setLanguage = (language: string) => {
    const page = pageLanguageFor(language)
    const speaks = page && page !== draft.profile.checkInLanguage
    set({ language, ...(speaks ? { profile: { ...draft.profile, checkInLanguage: page } } : {}) })
  }
  return (
    <>
      <div className={form.row}>
        <TextField label="Full name" size={32} maxLength={200} {...text('name')} />
        <TextField label="Birth date" type="date" {...text('birthDate')} />
        <TextField label="Record number" size={14} maxLength={40} {...text('recordNumber')} />
      </div>
      <div className={form.row}>
        <TextField
          label="Language"
          hint="empty: as here"
          size={14}
          maxLength={40}
          value={draft.language}
          onChange={setLanguage}
          fault={faults.language}
        />
        <div className={css.check}>
          <Choice
            type="checkbox"
            checked={draft.interpreter}
            onChange={(interpreter) => set({ interpreter })}
          >
            interpreter needed
          </Choice>
        </div>
        <Field label="Check-in page and hand-out in" fault={faults['profile.checkInLanguage']}>
          {(wired) => (
            <Select
              {...wired}
              value={draft.profile.checkInLanguage}
              onChange={(checkInLanguage) =>
                checkInLanguage && set({ profile: { ...draft.profile, checkInLanguage } })
              }
              labels={pageLanguages}
            />
          )}
        </Field>
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
    </>
  )
}
