'use client'

import { generalLabels } from '@/lib/domain/labels.ts'
import { Choice, Field, Group } from './field.tsx'
import form from './form.module.css'
import type { Asked, ProfileDraft, UsualDraft } from './profile-draft.ts'
import { Select } from './select.tsx'
import { TextField } from './text-field.tsx'

const yesNo = { yes: 'yes', no: 'no' } as const
type AskedName = 'anticoagulant' | 'immunosuppressed' | 'thermometer' | 'teachBack'

type AskedProps = {
  label: string
  name: AskedName
  draft: ProfileDraft
  set: (part: Partial<ProfileDraft>) => void
}

/** Yes, no, or not asked: which is never taken for a no. */
export function AskedField({ label, name, draft, set }: AskedProps) {
  return (
    <Field label={label}>
      {(wired) => (
        <Select<Exclude<Asked, ''>>
          {...wired}
          value={draft[name]}
          onChange={(value) => set({ [name]: value })}
          labels={yesNo}
          empty="not asked"
        />
      )}
    </Field>
  )
}

type Props = {
  draft: ProfileDraft
  set: (part: Partial<ProfileDraft>) => void
  faults: Record<string, string>
}

/** What makes a call more urgent, or changes what is said in it. */
export function WeighsFields({ draft, set, faults }: Props) {
  return (
    <div className={form.row}>
      <AskedField label="Blood thinners" name="anticoagulant" draft={draft} set={set} />
      <AskedField label="Weakened immune system" name="immunosuppressed" draft={draft} set={set} />
      <TextField
        label="Allergies"
        hint="empty: none known, or not asked"
        size={44}
        maxLength={300}
        value={draft.allergies}
        onChange={(allergies) => set({ allergies })}
        fault={faults.allergies}
      />
    </div>
  )
}

type UsualProps = {
  draft: UsualDraft
  set: (part: Partial<UsualDraft>) => void
  faults: Record<string, string>
}

/** What somebody may live with. Fainting, chest pain and heavy bleeding are never usual. */
const mayBeUsual = ['short-of-breath', 'confused', 'dizzy', 'vomiting'] as const

/** What this person has every day, so that it is no finding. */
export function UsualFields({ draft, set, faults }: UsualProps) {
  const isUsual = (word: UsualDraft['general'][number]) => draft.general.includes(word)
  return (
    <div className={form.row}>
      <TextField
        label="Usual pain, 0 to 10"
        hint="empty: none"
        inputMode="decimal"
        size={4}
        value={draft.pain}
        onChange={(pain) => set({ pain })}
        fault={faults.pain}
      />
      <Group legend="Has every day anyway">
        {mayBeUsual.map((word) => (
          <Choice
            key={word}
            type="checkbox"
            checked={isUsual(word)}
            onChange={(on) =>
              set({ general: on ? [...draft.general, word] : draft.general.filter((one) => one !== word) })
            }
          >
            {generalLabels[word]}
          </Choice>
        ))}
      </Group>
    </div>
  )
}
