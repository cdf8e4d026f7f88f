import type { ComponentProps } from 'react'

type Props<T extends string> = Omit<ComponentProps<'select'>, 'value' | 'onChange'> & {
  value: T | ''
  onChange: (value: T | '') => void
  labels: Readonly<Record<T, string>>
  /** What stands for 'nothing said'; left out where one must be chosen. */
  empty?: string
}

/** A choice from one of the record's closed lists of words. */
export function Select<T extends string>({ value, onChange, labels, empty, ...rest }: Props<T>) {
  const words = Object.keys(labels) as T[]
  return (
    <select {...rest} value={value} onChange={(event) => onChange(event.target.value as T | '')}>
      {empty === undefined ? null : <option value="">{empty}</option>}
      {words.map((word) => (
        <option key={word} value={word}>
          {labels[word]}
        </option>
      ))}
    </select>
  )
}
