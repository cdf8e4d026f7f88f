'use client'

import { isUrinary } from '@/lib/domain/kinds.ts'
import { appearanceLabels, drainageLabels, kindLabels, sideLabels } from '@/lib/domain/labels.ts'
import { Choice, Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import type { OrdersDraft, OrdersFaults } from '../parts/orders-draft.ts'
import { OrdersFields, VesselFields } from '../parts/orders-fields.tsx'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import {
  type DrainDraft,
  isExchanged,
  mayGoInside,
  type Offered,
  suggestedLabel,
  withKind,
} from './drain-draft.ts'
import css from './enrol.module.css'
import { faultsBelow } from './faults-below.ts'

type Props = {
  drain: DrainDraft
  path: string
  offered: Offered
  faults: Record<string, string>
  onChange: (drain: DrainDraft) => void
}

/** One drain: what it is, what it is collected in, what is usual for it, and what is ordered. */
export function DrainFields({ drain, path, offered, faults, onChange }: Props) {
  const set = (part: Partial<DrainDraft>) => onChange({ ...drain, ...part })
  const setOrders = (part: Partial<OrdersDraft>) =>
    set({ orders: { ...drain.orders, ...part }, ordersTouched: true })
  const text = (
    name: 'label' | 'frenchSize' | 'lengthMarkCm' | 'usualMlPerDay' | 'placedAt' | 'exchangeBookedFor',
  ) => ({
    value: drain[name],
    onChange: (value: string) => set({ [name]: value }),
    fault: faults[`${path}.${name}`],
  })
  const orders = {
    draft: drain.orders,
    set: setOrders,
    faults: faultsBelow(faults, `${path}.orders.`) as OrdersFaults,
  }

  return (
    <>
      <div className={form.row}>
        <Field label="Kind">
          {(wired) => (
            <Select
              {...wired}
              value={drain.kind}
              onChange={(kind) => kind && onChange(withKind(drain, kind, offered))}
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
        <TextField
          label="Plain name"
          hint="as patient and team call it"
          size={20}
          maxLength={60}
          placeholder={suggestedLabel(drain.kind, drain.side)}
          {...text('label')}
        />
        <TextField label="Size, Fr" inputMode="decimal" size={4} {...text('frenchSize')} />
        <TextField label="Placed, patient’s time" type="datetime-local" {...text('placedAt')} />
        <TextField
          label="Mark at the skin, cm"
          hint="empty: not read"
          inputMode="decimal"
          size={5}
          {...text('lengthMarkCm')}
        />
        {mayGoInside(drain.kind) ? (
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
        ) : null}
        {isUrinary(drain.kind) ? (
          <div className={css.check}>
            <Choice type="checkbox" checked={drain.onlyKidney} onChange={(onlyKidney) => set({ onlyKidney })}>
              this is the only working kidney
            </Choice>
          </div>
        ) : null}
      </div>
      <div className={form.row}>
        <VesselFields {...orders} />
        <TextField
          label="Last 24 h on the ward, mL"
          hint="empty: not known"
          inputMode="decimal"
          size={7}
          {...text('usualMlPerDay')}
        />
        <Field label="Usual look of the fluid" fault={faults[`${path}.usualAppearance`]}>
          {(wired) => (
            <Select
              {...wired}
              value={drain.usualAppearance}
              onChange={(usualAppearance) => set({ usualAppearance })}
              labels={appearanceLabels}
              empty="not known"
            />
          )}
        </Field>
      </div>
      <h3>Orders</h3>
      <p className={form.hint}>
        Filled in is what the clinic usually orders for this kind: set what was ordered for this patient.
      </p>
      <OrdersFields {...orders} withVessel={false} />
      {isExchanged(drain.kind) ? (
        <div className={form.row}>
          <TextField
            label="Exchange booked for, clinic time"
            hint="empty: not booked yet"
            type="datetime-local"
            {...text('exchangeBookedFor')}
          />
        </div>
      ) : null}
    </>
  )
}
