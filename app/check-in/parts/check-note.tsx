import { useForm } from '../form/form-context.ts'
import { useSay } from '../words/say.tsx'
import { focusQuestion } from './check-list.tsx'

export const noteId = (field: string) => `note-${field}`

/** What is to be looked at, beside its question; an unusual value can be said again with one tap. */
export function CheckNote({ field }: { field: string }) {
  const say = useSay()
  const form = useForm()
  const check = form.checkOf(field)
  if (!check) return null
  return (
    <div className="check-note">
      <p id={noteId(field)}>{check.message}</p>
      {check.again === undefined ? null : (
        <button type="button" onClick={() => form.confirm(check)}>
          {check.yes ?? say('ask.yesRight')}
        </button>
      )}
      {check.again === undefined ? null : (
        <button type="button" onClick={() => focusQuestion(check.field)}>
          {say('ask.noChange')}
        </button>
      )}
    </div>
  )
}
