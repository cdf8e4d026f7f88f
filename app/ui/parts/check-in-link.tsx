'use client'

import { useRef, useState } from 'react'
import { LINK_DAYS } from '@/lib/domain/patient-link.ts'
import { Field } from './field.tsx'
import form from './form.module.css'

type Props = {
  /** The path of the check-in page with the token in its fragment. */
  link: string
  /** The helper whose link it is; the patient's own where none is named. */
  helper?: string | undefined
}

/** A personal link, shown once: it is kept nowhere, only whoever it is for will have it. */
export function CheckInLink({ link, helper }: Props) {
  const [says, setSays] = useState('')
  const input = useRef<HTMLInputElement>(null)
  const full = new URL(link, window.location.origin).href
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(full)
      setSays('Copied.')
    } catch {
      input.current?.select()
      setSays('Marked: copy it with your keyboard.')
    }
  }
  const whose = helper
    ? `Give it to ${helper} only: what is sent by it stands under that name.`
    : 'Give it to the patient only: whoever has it can report for them.'
  return (
    <div className={form.stack}>
      <Field
        label="Check-in link"
        hint={`Shown once, here. ${whose} It works for ${LINK_DAYS} days and can be renewed by phone.`}
      >
        {(wired) => (
          <input
            {...wired}
            ref={input}
            readOnly
            size={60}
            value={full}
            onFocus={(event) => event.target.select()}
          />
        )}
      </Field>
      <p>
        <button type="button" onClick={copy}>
          Copy the link
        </button>{' '}
        <span role="status">{says}</span>
      </p>
    </div>
  )
}
