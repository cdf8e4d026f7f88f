'use client'

import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import type { ProfileDraft } from '../parts/profile-draft.ts'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import { AskedField } from '../parts/weighs-fields.tsx'

const channels = { none: 'none', email: 'by e-mail', gateway: 'by text message' } as const

type Props = {
  draft: ProfileDraft
  set: (part: Partial<ProfileDraft>) => void
  /** By the door's path below the profile. */
  faults: Record<string, string>
}

/** What the person knows and has at home, and whether they are reminded. */
export function HomeFields({ draft, set, faults }: Props) {
  return (
    <div className={form.row}>
      <AskedField label="Teach-back done" name="teachBack" draft={draft} set={set} />
      <AskedField label="Thermometer at home" name="thermometer" draft={draft} set={set} />
      <Field label="Reminders of a due log" fault={faults['reminders.channel']}>
        {(wired) => (
          <Select
            {...wired}
            value={draft.channel}
            onChange={(channel) => channel && set({ channel })}
            labels={channels}
          />
        )}
      </Field>
      {draft.channel === 'none' ? null : (
        <TextField
          label="At, patient’s time"
          type="time"
          value={draft.reminderAt}
          onChange={(reminderAt) => set({ reminderAt })}
          fault={faults['reminders.at']}
        />
      )}
    </div>
  )
}
