import { type ReactNode, useId } from 'react'
import css from './form.module.css'

type Wired = { id: string; 'aria-describedby'?: string; 'aria-invalid'?: true }
type Props = {
  label: string
  hint?: ReactNode
  fault?: string | undefined
  children: (wired: Wired) => ReactNode
}

/** A label, its control, a hint and what is wrong with it, wired together for those who hear the page. */
export function Field({ label, hint, fault, children }: Props) {
  const id = useId()
  const described = [hint ? `${id}-hint` : '', fault ? `${id}-fault` : ''].filter(Boolean).join(' ')
  return (
    <div className={css.field}>
      <label htmlFor={id}>{label}</label>
      {children({
        id,
        ...(described ? { 'aria-describedby': described } : {}),
        ...(fault ? { 'aria-invalid': true as const } : {}),
      })}
      {hint ? (
        <p id={`${id}-hint`} className={css.hint}>
          {hint}
        </p>
      ) : null}
      <FieldFault id={`${id}-fault`} text={fault} />
    </div>
  )
}

export function FieldFault({ id, text }: { id?: string; text: string | undefined }) {
  if (!text) return null
  return (
    <p id={id} className={css.fault}>
      {text}
    </p>
  )
}

/** A group of choices under one question. */
export function Group({
  legend,
  hint,
  fault,
  children,
}: {
  legend: string
  hint?: ReactNode
  fault?: string | undefined
  children: ReactNode
}) {
  const id = useId()
  return (
    <fieldset className={css.group} aria-describedby={fault ? `${id}-fault` : undefined}>
      <legend>{legend}</legend>
      {hint ? <p className={css.hint}>{hint}</p> : null}
      <div className={css.choices}>{children}</div>
      <FieldFault id={`${id}-fault`} text={fault} />
    </fieldset>
  )
}

type ChoiceProps = {
  type: 'radio' | 'checkbox'
  name?: string
  checked: boolean
  invalid?: boolean
  onChange: (checked: boolean) => void
  children: ReactNode
}

export function Choice({ type, name, checked, invalid = false, onChange, children }: ChoiceProps) {
  return (
    <label className={css.choice}>
      <input
        type={type}
        name={name}
        checked={checked}
        {...(invalid ? { 'aria-invalid': true as const } : {})}
        onChange={(event) => onChange(event.target.checked)}
      />
      <span>{children}</span>
    </label>
  )
}
