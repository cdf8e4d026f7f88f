'use client'

import { generalLabels } from '@/lib/domain/labels.ts'
import { General } from '@/lib/domain/words.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import { Select } from '../parts/select.tsx'
import css from './report.module.css'
import type { ReportDraft } from './report-draft.ts'
import { askedLabels, NOT_ASKED } from './report-drain.tsx'
import { ReportTime } from './report-time.tsx'

type Props = { draft: ReportDraft; set: (part: Partial<ReportDraft>) => void; faults: Record<string, string> }

/** How the patient is: temperature, chills, pain, and what else. */
export function SymptomsPart({ draft, set, faults }: Props) {
  return (
    <fieldset className={css.part}>
      <legend>How they are</legend>
      <div className={css.row}>
        <Field label="Temperature" fault={faults.temperature}>
          {(wired) => (
            <input
              {...wired}
              inputMode="decimal"
              size={6}
              value={draft.temperature}
              onChange={(event) => set({ temperature: event.target.value })}
            />
          )}
        </Field>
        <Field label="Scale">
          {(wired) => (
            <Select
              {...wired}
              value={draft.unit}
              onChange={(unit) => set({ unit: unit || 'C' })}
              labels={{ C: '°C', F: '°F' }}
            />
          )}
        </Field>
        <Field label="Chills">
          {(wired) => (
            <Select
              {...wired}
              value={draft.chills}
              onChange={(chills) => set({ chills })}
              labels={askedLabels}
              empty={NOT_ASKED}
            />
          )}
        </Field>
        <Field label="Pain, 0 to 10" fault={faults.pain}>
          {(wired) => (
            <input
              {...wired}
              inputMode="decimal"
              size={4}
              value={draft.pain}
              onChange={(event) => set({ pain: event.target.value })}
            />
          )}
        </Field>
        <ReportTime opened={draft.opened} value={draft.at} set={(at) => set({ at })} fault={faults.at} />
      </div>
      <Group legend="Any of these">
        {General.options.map((one) => (
          <Choice
            key={one}
            type="checkbox"
            checked={draft.general.includes(one)}
            onChange={(on) =>
              set({
                noGeneral: false,
                general: on ? [...draft.general, one] : draft.general.filter((other) => other !== one),
              })
            }
          >
            {generalLabels[one]}
          </Choice>
        ))}
        <Choice
          type="checkbox"
          checked={draft.noGeneral}
          onChange={(noGeneral) => set({ noGeneral, ...(noGeneral ? { general: [] } : {}) })}
        >
          <b>none of these</b> (asked)
        </Choice>
      </Group>
    </fieldset>
  )
}
