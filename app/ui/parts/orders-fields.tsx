'use client'

import type { ReactNode } from 'react'
import { vesselLabels } from '@/lib/domain/labels.ts'
import { Field } from './field.tsx'
import form from './form.module.css'
import type { OrdersDraft, OrdersFaults } from './orders-draft.ts'
import { Select } from './select.tsx'
import { TextField } from './text-field.tsx'

type Typed = { name: Exclude<keyof OrdersDraft, 'vessel'>; label: string; hint?: string; size: number }

/** In the order in which somebody says them: log, flush, dressing, exchange and removal; then the vessel. */
const ordered: readonly Typed[] = [
  { name: 'logEveryHours', label: 'Log every, hours', size: 5 },
  { name: 'flushMl', label: 'Flush, mL', hint: 'empty: none', size: 5 },
  { name: 'flushEveryHours', label: 'Flush every, hours', size: 5 },
  { name: 'flushAt', label: 'Flush at', hint: 'such as 09:00, 21:00', size: 14 },
  { name: 'dressingEveryHours', label: 'Dressing every, hours', size: 5 },
  { name: 'dressingType', label: 'Dressing, which', size: 18 },
  { name: 'exchangeEveryDays', label: 'Exchange every, days', hint: 'empty: none', size: 5 },
  { name: 'removalPlan', label: 'Removal plan', hint: 'empty: none yet', size: 44 },
]
const measures: readonly Typed[] = [
  { name: 'bagCapacityMl', label: 'It holds, mL', hint: 'empty: not known', size: 6 },
  { name: 'markMl', label: 'Smallest mark, mL', hint: 'empty: not known', size: 5 },
]
const words = new Set<keyof OrdersDraft>(['flushAt', 'dressingType', 'removalPlan'])
const most: Partial<Record<keyof OrdersDraft, number>> = { dressingType: 100, removalPlan: 300 }

type Props = {
  draft: OrdersDraft
  set: (part: Partial<OrdersDraft>) => void
  faults: OrdersFaults
  /** Where a value comes from, said below it. */
  sources?: Partial<Record<keyof OrdersDraft, ReactNode>>
}

/** What the fluid is collected in: its picture on the patient's phone follows from it. */
export function VesselFields({ draft, set, faults, sources = {} }: Props) {
  return (
    <>
      <Field label="Collected in" hint={sources.vessel} fault={faults.vessel}>
        {(wired) => (
          <Select
            {...wired}
            value={draft.vessel}
            onChange={(vessel) => set({ vessel })}
            labels={vesselLabels}
            empty="not known"
          />
        )}
      </Field>
      {measures.map((field) => (
        <TypedField key={field.name} {...field} {...{ draft, set, faults, sources }} />
      ))}
    </>
  )
}

/** What is ordered for one drain. */
export function OrdersFields(props: Props & { withVessel?: boolean }) {
  const { withVessel = true, ...rest } = props
  return (
    <div className={form.row}>
      {ordered.map((field) => (
        <TypedField key={field.name} {...field} {...rest} />
      ))}
      {withVessel ? <VesselFields {...rest} /> : null}
    </div>
  )
}

function TypedField({ name, label, hint, size, draft, set, faults, sources = {} }: Props & Typed) {
  return (
    <TextField
      label={label}
      hint={sources[name] ?? hint}
      fault={faults[name]}
      inputMode={words.has(name) ? 'text' : 'decimal'}
      size={size}
      maxLength={most[name]}
      value={draft[name]}
      onChange={(value) => set({ [name]: value })}
    />
  )
}
