import type { AskedAnswer } from '@/lib/domain/callback.ts'
import form from '../parts/form.module.css'

type Props = {
  asked: readonly AskedAnswer[]
  /** Names of the drains by id. */
  labels: Readonly<Record<string, string>>
  isReached: boolean
}

/** What was asked by the call sheet, as it will stand in the record of the call. */
export function AskedPart({ asked, labels, isReached }: Props) {
  if (asked.length === 0) return null
  const several = Object.keys(labels).length > 1
  return (
    <section aria-label="Asked by the call sheet">
      <p>
        <b>Asked by the call sheet</b>{' '}
        <span className={form.hint}>
          {isReached
            ? 'Kept with the call. What was told of readings and symptoms is entered as a report afterwards.'
            : 'Stays on the sheet until somebody is reached.'}
        </span>
      </p>
      <ul>
        {asked.map(({ question, drain, answer }) => (
          <li key={`${drain} ${question}`}>
            {drain && several ? `${labels[drain] ?? drain}: ` : ''}
            {question} {answer ? <b>{answer}</b> : <span className={form.hint}>no answer noted</span>}
          </li>
        ))}
      </ul>
    </section>
  )
}
