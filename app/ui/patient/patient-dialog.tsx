import type { KeyboardEvent, ReactNode } from 'react'
import type { SendFault } from '@/lib/client/use-send.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { Dialog } from '../parts/dialog.tsx'
import form from '../parts/form.module.css'
import { FormFoot } from '../parts/form-foot.tsx'

type Props = {
  patient: PatientPage['patient']
  title: string
  wide?: boolean
  onClose: () => void
  children: ReactNode
}

/** A dialog over a patient's page: whose it is stands at its head by two identifiers. */
export function PatientDialog({ patient, title, wide = false, onClose, children }: Props) {
  return (
    <Dialog
      wide={wide}
      title={`${title} ${patient.name}`}
      about={`${fullDate(patient.birthDate)} · ${patient.recordNumber}`}
      onClose={onClose}
    >
      {children}
    </Dialog>
  )
}

type FormProps = {
  main: string
  sending: { isSending: boolean; fault: SendFault | null }
  /** The doors' fields that the form shows beside their controls. */
  shown?: readonly string[]
  /** Called on submit, unless what was sent is stored already. */
  onSubmit: () => void
  onClose: () => void
  children: ReactNode
}

/** Enter sends from a list, too, and Ctrl with Enter from a text of several lines; a box in a line sends by itself. */
const sendsByEnter = ({ target, ctrlKey, metaKey }: KeyboardEvent<HTMLFormElement>) =>
  target instanceof HTMLSelectElement || (target instanceof HTMLTextAreaElement && (ctrlKey || metaKey))

/** The form of such a dialog, with its foot. */
export function DialogForm({ main, sending, shown, onSubmit, onClose, children }: FormProps) {
  const { isSending, fault } = sending
  return (
    <form
      noValidate
      onKeyDown={(event) => {
        if (event.key !== 'Enter' || !sendsByEnter(event)) return
        event.preventDefault()
        event.currentTarget.requestSubmit()
      }}
      onSubmit={(event) => {
        event.preventDefault()
        if (!fault?.stored) onSubmit()
      }}
    >
      <div className={form.form}>{children}</div>
      <FormFoot main={main} isSending={isSending} fault={fault} shown={shown} onClose={onClose} />
    </form>
  )
}
