import { capital } from '@/lib/domain/capital.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import { type Flutter, flutters } from '@/lib/domain/flutter.ts'
import {
  confidenceLabels,
  findingLabels,
  flagStateLabels,
  stepLabels,
  urgencyLabels,
} from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { Marks } from '../parts/marks.tsx'
import css from './patient.module.css'
import { standingFlags } from './standing.ts'

/** Most flags that no longer stand that are shown before more are asked for. */
const EARLIER = 30

/**
 * All flags with what they rest on and each step of their life: those that stand first, then the newest. What opened
 * and ended again and again is one entry, of its latest flag.
 */
export function FlagsList({ page }: { page: PatientPage }) {
  const runs = flutters(page.flags, page.steps)
  const runOf = new Map(runs.flatMap((run) => run.flagIds.map((id) => [id, run])))
  const isShown = ({ id }: Flag) => (runOf.get(id)?.flagIds.at(-1) ?? id) === id
  const standing = standingFlags(page.flags)
  const earlier = page.flags
    .filter((flag) => !standing.includes(flag) && isShown(flag))
    .toSorted((a, b) => Date.parse(b.openedAt) - Date.parse(a.openedAt))
  return (
    <section aria-labelledby="flags" className={css.section}>
      <h2 id="flags">Flags</h2>
      {page.flags.length === 0 ? <p className={css.quiet}>None so far.</p> : null}
      <ul className={css.list}>
        {standing.map((flag) => (
          <li key={flag.id}>
            <OneFlag flag={flag} run={runOf.get(flag.id)} page={page} />
          </li>
        ))}
      </ul>
      {earlier.length > 0 ? (
        <details className={css.more}>
          <summary>{earlier.length} that no longer stand</summary>
          <ul className={css.list}>
            {earlier.slice(0, EARLIER).map((flag) => (
              <li key={flag.id}>
                <OneFlag flag={flag} run={runOf.get(flag.id)} page={page} />
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  )
}

function OneFlag({ flag, run, page }: { flag: Flag; run: Flutter | undefined; page: PatientPage }) {
  const { finding, drain } = flag
  const { threshold } = finding
  const zone = page.clinic.timeZone
  const ids = run?.flagIds ?? [flag.id]
  const steps = page.steps.filter(({ flagId }) => ids.includes(flagId))
  return (
    <article>
      <h3>
        <Marks urgency={flag.urgency} /> {findingLabels[flag.code]}
        {drain ? `, ${capital(page.labels[drain]?.label ?? drain)}` : ''}
        <span className={css.plain}>
          {' '}
          · {urgencyLabels[flag.urgency].toLowerCase()} · {flagStateLabels[flag.state].toLowerCase()}
        </span>
      </h3>
      {run ? (
        <p>
          <b>It flutters:</b> opened and ended {run.times} times from {dayAndTime(run.from, zone)} to{' '}
          {dayAndTime(run.until, zone)}; shown as one.
        </p>
      ) : null}
      <p>{finding.says}</p>
      <p className={css.quiet}>{finding.ends}</p>
      <details className={css.more}>
        <summary>Threshold and steps</summary>
        <p>
          {threshold.name}: {String(threshold.value)}
          {threshold.unit ? ` ${threshold.unit}` : ''} ({confidenceLabels[threshold.confidence]}).{' '}
          {threshold.source}
        </p>
        <ol>
          {steps.map(({ flagId, at, kind, by, why }) => (
            <li key={`${flagId} ${at} ${kind}`}>
              {dayAndTime(at, zone)}: {stepLabels[kind]}, {by ?? 'the rules'}. {why}
            </li>
          ))}
        </ol>
      </details>
    </article>
  )
}
