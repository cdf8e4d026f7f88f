'use client'

import { useState } from 'react'
import type { NewLink } from '@/lib/domain/patient-link.ts'
import { Choice, Field } from '../../parts/field.tsx'
import form from '../../parts/form.module.css'

type Props = { isBusy: boolean; onMake: (wanted: NewLink) => void; onLeave: () => void }

/** A link of a helper's own: their name stands on each report that comes by it. */
export function HelperForm({ isBusy, onMake, onLeave }: Props) {
  const [name, setName] = useState('')
  const [maySee, setMaySee] = useState(false)
  const [isEmpty, setEmpty] = useState(false)
  return (
    <form
      noValidate
      className={form.stack}
      onSubmit={(event) => {
        event.preventDefault()
        const holderName = name.trim()
        setEmpty(holderName === '')
        if (holderName !== '' && !isBusy) onMake({ holder: 'helper', holderName, maySee })
      }}
    >
      <Field
        label="Helper’s name"
        hint="As it is to stand on each report: name and, if it helps, how they are related."
        fault={isEmpty ? 'Give the helper’s name.' : undefined}
      >
        {(wired) => (
          <input
            {...wired}
            size={30}
            maxLength={80}
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
        )}
      </Field>
      <Choice type="checkbox" checked={maySee} onChange={setMaySee}>
        The patient agrees that this helper sees earlier entries
      </Choice>
      <p>
        <button type="submit" data-main aria-disabled={isBusy}>
          Make the helper’s link
        </button>{' '}
        <button type="button" onClick={onLeave}>
          Back
        </button>
      </p>
    </form>
  )
}
