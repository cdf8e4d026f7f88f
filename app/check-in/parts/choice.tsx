import type { ReactNode } from 'react'
import { useForm } from '../form/form-context.ts'
import { CheckNote, noteId } from './check-note.tsx'

type Props<T extends string> = {
  field: string
  legend: string
  hint?: string
  options: readonly (readonly [T, string])[]
  value: T | undefined
  onChange: (value: T) => void
  /** Side by side: two or three short answers in a row, or many in two columns where they fit. */
  set?: 'in-a-row' | 'two-columns'
  /** Shown below the answers as soon as they bring it. */
  children?: ReactNode
}

/** One question with one answer of a few: each answer as wide as the thumb needs. */
export function Choice<T extends string>({
  field,
  legend,
  hint,
  options,
  value,
  onChange,
  set,
  children,
}: Props<T>) {
  const check = useForm().checkOf(field)
  return (
    <fieldset
      id={`q-${field}`}
      tabIndex={-1}
      className="question"
      aria-describedby={check ? noteId(field) : undefined}
    >
      <legend>{legend}</legend>
      {hint ? <p className="hint">{hint}</p> : null}
      <CheckNote field={field} />
      <div className={`answers ${set ?? ''}`}>
        {options.map(([word, label]) => (
          <label key={word} className="answer">
            <input
              type="radio"
              name={field}
              value={word}
              checked={value === word}
              onChange={() => onChange(word)}
            />
            <span>{label}</span>
          </label>
        ))}
      </div>
      {children}
    </fieldset>
  )
}
