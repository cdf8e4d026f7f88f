import { dayAndTime } from '@/lib/domain/local-time.ts'
import { stratumLabels } from '@/lib/domain/review-page.ts'
import type { Happened } from '@/lib/domain/week-page.ts'
import audit from '../audit.module.css'
import css from './week.module.css'

/** What the item was, who called, and what came of it. */
export function HappenedPart({ happened, zone }: { happened: Happened; zone: string }) {
  const { flag, others, calls, events, stratum, probability } = happened
  return (
    <section aria-labelledby="happened" className={css.happened}>
      <h3 id="happened">What happened</h3>
      {flag ? (
        <>
          <p>
            <b>
              {flag.name}
              {flag.drain ? `, ${flag.drain}` : ''}
            </b>
            : opened {dayAndTime(flag.openedAt, zone)}, {flag.urgency.toLowerCase()}, now{' '}
            {flag.state.toLowerCase()}
            {flag.ruleSet ? `, under rule set ${flag.ruleSet}` : ''}.
          </p>
          <p>{flag.says}</p>
          {flag.hadEnded ? (
            <p>It had ended by itself before the verdict, which counts all the same.</p>
          ) : null}
        </>
      ) : (
        <p>No flag stood on this day.</p>
      )}
      <Lines
        title="Calls"
        none="Nobody called from the day before to seven days after."
        lines={calls.map(({ at, by, says, note }) => ({
          at,
          says: `${says}. ${by}${note ? `: “${note}”` : ''}`,
        }))}
        zone={zone}
      />
      <Lines title="Later events outside" none="None on record." lines={events} zone={zone} />
      {flag ? <Lines title="The flag’s steps" none="" lines={flag.steps} zone={zone} /> : null}
      {others.length > 0 ? <Lines title="Other flags" none="" lines={others} zone={zone} /> : null}
      <p className={audit.quiet}>
        One of the {stratumLabels[stratum]}, drawn with a chance of {Math.round(probability * 100)}%.
      </p>
    </section>
  )
}

function Lines({
  title,
  none,
  lines,
  zone,
}: {
  title: string
  none: string
  lines: readonly { at: string; says: string }[]
  zone: string
}) {
  return (
    <>
      <h4>{title}</h4>
      {lines.length === 0 ? <p className={audit.quiet}>{none}</p> : null}
      <ul className={css.lines}>
        {lines.map(({ at, says }) => (
          <li key={`${at} ${says}`}>
            {dayAndTime(at, zone)}: {says}
          </li>
        ))}
      </ul>
    </>
  )
}
