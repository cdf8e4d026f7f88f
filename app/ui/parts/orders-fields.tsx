'use client'

import { Field } from './field.tsx'
import form from './form.module.css'
import type { OrdersDraft, OrdersFaults } from './orders-draft.ts'

const fields: readonly { name: keyof OrdersDraft; label: string; hint?: string }[] = [
  { name: 'logEveryHours', label: 'Log every, hours' },
  { name: 'dressingEveryHours', label: 'Dressing every, hours' },
  { name: 'flushMl', label: 'Flush, mL', hint: 'empty: none' },
  { name: 'flushEveryHours', label: 'Flush every, hours' },
  { name: 'exchangeEveryDays', label: 'Exchange every, days', hint: 'empty: none' },
  { name: 'bagCapacityMl', label: 'Bag holds, mL', hint: 'empty: not known' },
]

type Props = { draft: OrdersDraft; set: (part: Partial<OrdersDraft>) => void; faults: OrdersFaults }

/** What is ordered for one drain. */
export function OrdersFields({ draft, set, faults }: Props) {
  return (
    <div className={form.row}>
      {fields.map(({ name, label, hint }) => (
        <Field key={name} label={label} hint={hint} fault={faults[name]}>
          {(wired) => (
            <input
              {...wired}
              inputMode="decimal"
              size={7}
              value={draft[name]}
              onChange={(event) => set({ [name]: event.target.value })}
            />
          )}
        </Field>
      ))}
    </div>
  )
}
