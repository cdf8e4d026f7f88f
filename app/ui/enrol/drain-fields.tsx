'use client'

import { isUrinary } from '@/lib/domain/kinds.ts'
import { drainageLabels, kindLabels, sideLabels } from '@/lib/domain/labels.ts'
import { Choice, Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import type { OrdersFaults } from '../parts/orders-draft.ts'
import { OrdersFields } from '../parts/orders-fields.tsx'
import { Select } from '../parts/select.tsx'
import { type DrainDraft, suggestedLabel, withKind } from './draft.ts'
import css from './enrol.module.css'

type Props = {
  drain: DrainDraft
  path: string
  faults: Record<string, string>
  onChange: (drain: DrainDraft) => void
}

/** One drain: what it is, and what is ordered for it. */
export function DrainFields({ drain, path, faults, onChange }: Props) {
  const set = (part: Partial<DrainDraft>) => onChange({ ...drain, ...part })
  const text = (name: 'label' | 'frenchSize' | 'usualMlPerDay' | 'markMl') => ({
    value: drain[name],
    onChange: (event: { target: { value: string } }) => set({ [name]: event.target.value }),
  })
  const prefix = `${path}.orders.`
  const ordersFaults = Object.fromEntries(
    Object.entries(faults).flatMap(([at, says]) =>
      at.startsWith(prefix) ? [[at.slice(prefix.length), says]] : [],
    ),
  ) as OrdersFaults

  return (
    <>
      <div className={form.row}>
        <Field label="Kind">
          {(wired) => (
            <Select
              {...wired}
              value={drain.kind}
              onChange={(kind) => kind && onChange(withKind(drain, kind))}
              labels={kindLabels}
            />
          )}
        </Field>
        <Field label="Side">
          {(wired) => (
            <Select
              {...wired}
              value={drain.side}
              onChange={(side) => set({ side })}
              labels={sideLabels}
              empty="none"
            />
          )}
        </Field>
        <Field label="Plain name" hint="as patient and team call it" fault={faults[`${path}.label`]}>
          {(wired) => (
            <input
              {...wired}
              size={20}
              maxLength={60}
              placeholder={suggestedLabel(drain.kind, drain.side)}
              {...text('label')}
            />
          )}
        </Field>
        <Field label="Size, F" fault={faults[`${path}.frenchSize`]}>
          {(wired) => <input {...wired} inputMode="decimal" size={4} {...text('frenchSize')} />}
        </Field>
        <Field label="Placed, patient’s time" fault={faults[`${path}.placedAt`]}>
          {(wired) => (
            <input
              {...wired}
              type="datetime-local"
              value={drain.placedAt}
              onChange={(event) => set({ placedAt: event.target.value })}
            />
          )}
        </Field>
        <Field label="Drainage">
          {(wired) => (
            <Select
              {...wired}
              value={drain.drainage}
              onChange={(drainage) => set({ drainage: drainage || 'external' })}
              labels={drainageLabels}
            />
          )}
        </Field>
        <Field
          label="Usual on the ward, mL a day"
          hint="empty: not known"
          fault={faults[`${path}.usualMlPerDay`]}
        >
          {(wired) => <input {...wired} inputMode="decimal" size={7} {...text('usualMlPerDay')} />}
        </Field>
        <Field label="Smallest mark, mL" hint="empty: not known" fault={faults[`${path}.markMl`]}>
          {(wired) => <input {...wired} inputMode="decimal" size={5} {...text('markMl')} />}
        </Field>
        {isUrinary(drain.kind) ? (
          <div className={css.check}>
            <Choice type="checkbox" checked={drain.onlyKidney} onChange={(onlyKidney) => set({ onlyKidney })}>
              this is the only working kidney
            </Choice>
          </div>
        ) : null}
      </div>
      <h3>Orders</h3>
      <p className={form.hint}>
        What is filled in is a start for this kind and a local choice: set what was ordered for this patient.
      </p>
      <OrdersFields
        draft={drain.orders}
        set={(part) => set({ orders: { ...drain.orders, ...part }, ordersTouched: true })}
        faults={ordersFaults}
      />
    </>
  )
}
