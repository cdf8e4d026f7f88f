import { useForm } from '../form/form-context.ts'
import { ask } from '../words/ask.ts'

export const noteId = (field: string) => `note-${field}`

/** What is to be looked at, beside its question; an unusual value can be said again with one tap. */
export function CheckNote({ field }: { field: string }) {
  const form = useForm()
  const check = form.checkOf(field)
  if (!check) return null
  return (
    <div className="check-note">
      <p id={noteId(field)}>{check.message}</p>
      {check.again === undefined ? null : (
        <button type="button" onClick={() => form.confirm(check)}>
          {ask.yesRight}
        </button>
      )}
    </div>
  )
}
