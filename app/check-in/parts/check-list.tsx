import type { Check } from '../answers/checks.ts'
import { useSay } from '../words/say.tsx'

/** All that is to be looked at on this screen, at its top, each line leading to its question. */
export function CheckList({ checks }: { checks: Check[] }) {
  const say = useSay()
  const [first, ...more] = checks
  // One question speaks for itself, where it stands.
  if (!first || (more.length === 0 && first.field !== 'report')) return null
  return (
    <div id="to-look-at" className="check-list" tabIndex={-1} role="alert">
      <h2>{say('ask.heading')}</h2>
      <ul>
        {checks.map((check) => (
          <li key={`${check.field} ${check.message}`}>
            {check.field === 'report' ? (
              check.message
            ) : (
              <a href={`#q-${check.field}`} onClick={(event) => goTo(event, check.field)}>
                {check.message}
              </a>
            )}
          </li>
        ))}
      </ul>
    </div>
  )
}

/** Moves there by hand: a changed fragment would be an entry in the history, and look like a link's token. */
function goTo(event: { preventDefault: () => void }, field: string) {
  event.preventDefault()
  focusQuestion(field)
}

/** What is to be looked at comes into view and is read out: the one question, or the list of several. */
export function focusChecks(checks: Check[]) {
  const [only, ...more] = checks
  if (!only || more.length > 0 || !focusQuestion(only.field)) document.getElementById('to-look-at')?.focus()
}

export function focusQuestion(field: string): boolean {
  const question = document.getElementById(`q-${field}`)
  question?.scrollIntoView({ block: 'start' })
  const input = question?.matches('input, textarea')
    ? question
    : question?.querySelector('input, select, textarea')
  ;(input instanceof HTMLElement ? input : question)?.focus({ preventScroll: true })
  return question !== null
}
