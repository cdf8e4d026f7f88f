'use client'

import { useState } from 'react'
import { Field } from '../parts/field.tsx'
import css from './report.module.css'

type Props = {
  value: string
  /** What the clock said when the form was opened; null: the time is always shown. */
  opened: string | null
  set: (at: string) => void
  fault: string | undefined
}

/** When it was so: just now, in one stop of the Tab key, until somebody wants to say another time. */
export function ReportTime({ value, opened, set, fault }: Props) {
  const [isOpen, setOpen] = useState(false)
  if (value === opened && !isOpen && !fault)
    return (
      <div className={css.now}>
        <span aria-hidden="true">When</span>
        <button type="button" data-quiet onClick={() => setOpen(true)}>
          <span className="for-reader">When: </span>just now
          <span className="for-reader">; say another time</span>
        </button>
      </div>
    )
  return (
    <Field label="When" fault={fault}>
      {(wired) => (
        <input
          {...wired}
          type="datetime-local"
          // biome-ignore lint/a11y/noAutofocus: whoever has just asked for it goes on there
          autoFocus={isOpen}
          value={value}
          onChange={(event) => set(event.target.value)}
        />
      )}
    </Field>
  )
}
