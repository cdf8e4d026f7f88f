import type { OutcomeDrain } from '@/lib/domain/outcomes-page.ts'
import { outsideEventLabels } from '@/lib/domain/outcomes-page.ts'
import { Field } from '../../parts/field.tsx'
import form from '../../parts/form.module.css'
import { Select } from '../../parts/select.tsx'
import { TextField } from '../../parts/text-field.tsx'
import type { EventDraft } from './draft.ts'

type Props = {
  legend: string
  event: EventDraft
  drains: readonly OutcomeDrain[]
  zone: string
  fault: (field: 'kind' | 'at' | 'drain' | 'note') => string | undefined
  onChange: (part: Partial<EventDraft>) => void
}

/** What happened, when, to which drain. */
export function EventFields({ legend, event, drains, zone, fault, onChange }: Props) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div className={form.row}>
        <Field label="What happened" fault={fault('kind')}>
          {(wired) => (
            <Select
              {...wired}
              value={event.kind}
              onChange={(kind) => onChange({ kind })}
              labels={outsideEventLabels}
              empty="choose"
            />
          )}
        </Field>
        <TextField
          label="When"
          hint={`time in ${zone}`}
          type="datetime-local"
          value={event.at}
          onChange={(at) => onChange({ at })}
          fault={fault('at')}
        />
        <Field label="Drain" fault={fault('drain')}>
          {(wired) => (
            <Select
              {...wired}
              value={event.drain}
              onChange={(drain) => onChange({ drain })}
              labels={Object.fromEntries(drains.map(({ id, label }) => [id, label]))}
              empty="none or not known"
            />
          )}
        </Field>
        <TextField
          label="Note"
          size={36}
          maxLength={2000}
          value={event.note}
          onChange={(note) => onChange({ note })}
          fault={fault('note')}
        />
      </div>
    </fieldset>
  )
}
