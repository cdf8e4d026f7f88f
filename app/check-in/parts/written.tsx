import type { ReactNode } from 'react'
import { useForm } from '../form/form-context.ts'
import { CheckNote, noteId } from './check-note.tsx'

type Props = {
  field: string
  label: string
  hint?: string
  unit?: string
  value: string
  onChange: (value: string) => void
  /** What was understood, shown back: '12 oz = 355 mL'. */
  children?: ReactNode
}

/** A number that a person writes, with what was understood beside it. Text, since phones' number fields
 * drop a comma and let a thumb change the value by scrolling. */
export function Written({ field, label, hint, unit, value, onChange, children }: Props) {
  const check = useForm().checkOf(field)
  const hintId = `hint-${field}`
  const describedBy = [hint ? hintId : '', check ? noteId(field) : ''].filter(Boolean).join(' ')
  return (
    <div className="question">
      <label htmlFor={`q-${field}`}>{label}</label>
      {hint ? (
        <p className="hint" id={hintId}>
          {hint}
        </p>
      ) : null}
      <CheckNote field={field} />
      <div className="written">
        <input
          id={`q-${field}`}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          enterKeyHint="next"
          maxLength={12}
          value={value}
          aria-describedby={describedBy || undefined}
          aria-invalid={check ? true : undefined}
          onChange={(event) => onChange(event.target.value)}
        />
        {unit ? <span>{unit}</span> : null}
      </div>
      {children === undefined ? null : (
        <p className="shown-back" role="status">
          {children}
        </p>
      )}
    </div>
  )
}
