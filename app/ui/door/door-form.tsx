import type { ReactNode } from 'react'
import css from './door.module.css'
import type { DoorFault } from './use-door.ts'

type Props = {
  main: string
  isSending: boolean
  fault: DoorFault | null
  onSend: (fields: Record<string, string>) => void
  children: ReactNode
}

/** The form of a page before sign-in. It says `post`, so that without script no password ever lands in an address. */
export function DoorForm({ main, isSending, fault, onSend, children }: Props) {
  return (
    <form
      method="post"
      className={css.form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const fields = [...new FormData(event.currentTarget)].map(([name, value]) => [name, String(value)])
        onSend(Object.fromEntries(fields))
      }}
    >
      {fault ? (
        <p role="alert" className={css.trouble}>
          {fault.text}
        </p>
      ) : null}
      {children}
      <button type="submit" data-main aria-disabled={isSending}>
        {isSending ? 'Sending' : main}
      </button>
    </form>
  )
}
