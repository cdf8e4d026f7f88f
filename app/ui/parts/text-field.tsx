import type { ComponentProps, ReactNode } from 'react'
import { Field } from './field.tsx'

type Props = Omit<ComponentProps<'input'>, 'onChange' | 'value' | 'id'> & {
  label: string
  hint?: ReactNode
  fault?: string | undefined
  value: string
  onChange: (value: string) => void
}

/** One line of text with its label, hint and fault. */
export function TextField({ label, hint, fault, value, onChange, ...rest }: Props) {
  return (
    <Field label={label} hint={hint} fault={fault}>
      {(wired) => (
        <input
          autoComplete="off"
          {...rest}
          {...wired}
          value={value}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </Field>
  )
}
