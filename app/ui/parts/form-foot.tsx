import type { SendFault } from '@/lib/client/use-send.ts'
import css from './form.module.css'

type Props = {
  main: string
  isSending: boolean
  fault: SendFault | null
  shown?: readonly string[]
  onClose: () => void
}

/**
 * The end of a form in a dialog: what went wrong (with each fault that no field of the form shows), then the
 * button that sends and the one that leaves. The button stays pressable in looks and focus while it sends.
 */
export function FormFoot({ main, isSending, fault, shown = [], onClose }: Props) {
  const rest = (fault?.fields ?? []).filter(({ field }) => !shown.some((name) => field.startsWith(name)))
  return (
    <div className={css.actions}>
      {fault ? (
        <div role="alert" className={css.trouble}>
          <p>{fault.text}</p>
          {rest.map(({ field, message }) => (
            <p key={field}>
              {field} {message}
            </p>
          ))}
        </div>
      ) : null}
      <button type="submit" data-main aria-disabled={isSending || fault?.stored === true}>
        {isSending ? 'Sending' : main}
      </button>
      <button type="button" onClick={onClose}>
        {fault?.stored ? 'Close' : 'Cancel'}
      </button>
    </div>
  )
}

/** The first fault of a field, or of a part of it. */
export const faultOf = (fault: SendFault | null, field: string): string | undefined =>
  fault?.fields.find(
    (one) => one.field === field || one.field.startsWith(`${field}[`) || one.field.startsWith(`${field}.`),
  )?.message
