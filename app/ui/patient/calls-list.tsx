import type { Callback } from '@/lib/domain/callback.ts'
import { agreedLabels, directionLabels, outcomeLabels, spokenLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './patient.module.css'
import { useMore } from './use-more.tsx'

type Props = { page: PatientPage; onCorrect: ((call: Callback) => void) | null }

/** Every call, the newest first. One that was taken back or corrected is struck out and stays readable. */
export function CallsList({ page, onCorrect }: Props) {
  const zone = page.clinic.timeZone
  const calls = page.callbacks.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at))
  const [shown, more] = useMore(
    calls,
    'calls',
    (call, target) => target.to === 'call' && target.id === call.id,
  )
  return (
    <section aria-labelledby="calls" className={css.section}>
      <h2 id="calls">Calls</h2>
      {calls.length === 0 ? <p className={css.quiet}>None recorded.</p> : null}
      <ul className={css.list}>
        {shown.map((call) => (
          <li key={call.id} id={`call-${call.id}`}>
            <OneCall call={call} zone={zone} labels={page.labels} />
            {goneText(call, calls, zone) === null && onCorrect ? (
              <button type="button" data-quiet onClick={() => onCorrect(call)}>
                Correct<span className="for-reader"> the call of {dayAndTime(call.at, zone)}</span>
              </button>
            ) : null}
            {goneText(call, calls, zone) !== null ? <p>{goneText(call, calls, zone)}</p> : null}
          </li>
        ))}
      </ul>
      {more}
    </section>
  )
}

function OneCall({ call, zone, labels }: { call: Callback; zone: string; labels: PatientPage['labels'] }) {
  const { at, by, direction, contact, outcome, agreed, teachBack, closes, lookAgainAt, note, asked } = call
  const several = Object.keys(labels).length > 1
  const isGone = call.undoneAt !== null || call.correctedBy !== null
  const whom = [
    direction === 'they-called' ? directionLabels[direction].toLowerCase() : null,
    contact,
    ...spokenWords(call),
  ]
  const says = (
    <>
      <h3>
        {dayAndTime(at, zone)} · {by} · {outcomeLabels[outcome]}
        {whom.some(Boolean) ? <span className={css.plain}> ({whom.filter(Boolean).join(', ')})</span> : null}
      </h3>
      {agreed.length > 0 ? (
        <p>
          Agreed: {agreed.map((one) => agreedLabels[one].toLowerCase()).join(', ')}.
          {teachBack === null ? '' : teachBack ? ' Said back in their own words.' : ' Not said back.'}
        </p>
      ) : null}
      {lookAgainAt ? <p>Look again {dayAndTime(lookAgainAt, zone)}.</p> : null}
      {note ? <p>“{note}”</p> : null}
      {asked.length > 0 ? (
        <details className={css.more}>
          <summary>{asked.length === 1 ? 'One question asked' : `${asked.length} questions asked`}</summary>
          <ul>
            {asked.map(({ question, drain, answer }) => (
              <li key={`${drain} ${question}`}>
                {drain && several ? `${labels[drain]?.label ?? drain}: ` : ''}
                {question} {answer ? <b>{answer}</b> : 'no answer noted'}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {closes.length > 0 ? (
        <p className={css.quiet}>Closed {closes.length === 1 ? 'one flag' : `${closes.length} flags`}.</p>
      ) : null}
      {call.why ? (
        <p>
          Corrected {dayAndTime(call.recordedAt, zone)} by {by}: “{call.why}”
        </p>
      ) : null}
    </>
  )
  return isGone ? <del className={css.struck}>{says}</del> : says
}

function spokenWords({ spokenTo, interpreter }: Callback): string[] {
  if (spokenTo === null) return []
  const through = spokenLabels.interpreter.toLowerCase()
  if (spokenTo === 'interpreter') return [through]
  return [spokenLabels[spokenTo].toLowerCase(), ...(interpreter ? [through] : [])]
}

/** Why a call no longer counts; null where it does. */
function goneText({ undoneAt, undoneBy, correctedBy }: Callback, calls: readonly Callback[], zone: string) {
  if (undoneAt !== null) return `Taken back ${dayAndTime(undoneAt, zone)} by ${undoneBy}.`
  const correction = calls.find(({ id }) => id === correctedBy)
  return correctedBy === null ? null : `Corrected by ${correction?.by ?? 'somebody'}; see the newer record.`
}
