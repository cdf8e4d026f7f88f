'use client'

import { useRef, useState } from 'react'
import { Field } from './field.tsx'
import form from './form.module.css'

/** A personal link, shown once: it is kept nowhere, only the patient will have it. */
export function CheckInLink({ link }: { link: string }) {
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
  return (
    <div className={form.stack}>
      <Field
        label="Check-in link"
        hint="Shown once, here. Give it to the patient only: whoever has it can report for them."
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
