import type { OnCallView } from '@/lib/domain/escalation.ts'
import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { shortTimes, when } from '@/lib/domain/local-time.ts'
import { Marks } from '../parts/marks.tsx'
import css from './on-call.module.css'

type Props = { findings: OnCallView['findings']; asOf: string; zone: string }

/** What is flagged, with its numbers, the most pressing first. */
export function Findings({ findings, asOf, zone }: Props) {
  const now = Date.parse(asOf)
  return (
    <section aria-labelledby="findings" className={css.part}>
      <h2 id="findings">What was found</h2>
      <ul className={css.findings}>
        {findings.map(({ code, drain, urgency, says, actBy }) => (
          <li key={`${code} ${drain ?? ''}`}>
            <h3>
              <Marks urgency={urgency} /> {findingLabels[code]}
              {drain ? `, ${drain}` : ''}
            </h3>
            <p>{shortTimes(says, now, zone)}</p>
            <p className={css.quiet}>
              {urgencyLabels[urgency]}, by {when(actBy, now, zone)}
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}
