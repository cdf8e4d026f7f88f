import { useMemo } from 'react'
import { capital } from '@/lib/domain/capital.ts'
import type { Flag, FlagStep } from '@/lib/domain/flag.ts'
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
import { noneSays } from '../timeline/reach.ts'
import css from './patient.module.css'
import { standingFlags } from './standing.ts'
import { useMore } from './use-more.tsx'
import { VerdictLine } from './verdict-line.tsx'

/**
 * All flags with what they rest on and each step of their life: those that stand first, then the newest. What opened
 * and ended again and again is one entry, of its latest flag.
 */
export function FlagsList({ page }: { page: PatientPage }) {
  const { flags, steps } = page
  const { runOf, standing, earlier, stepsOf } = useMemo(() => arranged({ flags, steps }), [flags, steps])
  const [shown, more] = useMore(earlier, 'flags that no longer stand')
  const one = (flag: Flag) => (
    <li key={flag.id}>
      <OneFlag flag={flag} run={runOf.get(flag.id)} stepsOf={stepsOf} page={page} />
    </li>
  )
  return (
    <section aria-labelledby="flags" className={css.section}>
      <h2 id="flags">Flags</h2>
      {page.flags.length === 0 ? <p className={css.quiet}>{noneSays({ ...page, leftOut: null })}</p> : null}
      <ul className={css.list}>{standing.map(one)}</ul>
      {earlier.length > 0 ? (
        <details className={css.more}>
          <summary>{earlier.length} that no longer stand</summary>
          <ul className={css.list}>{shown.map(one)}</ul>
          {more}
        </details>
      ) : null}
    </section>
  )
}

/** What stands, what no longer does, which of them flutter, and the steps of each. */
function arranged({ flags, steps }: Pick<PatientPage, 'flags' | 'steps'>) {
  const runs = flutters(flags, steps)
  const runOf = new Map(runs.flatMap((run) => run.flagIds.map((id) => [id, run])))
  const standing = standingFlags(flags)
  const stands = new Set(standing)
  const earlier = flags
    .filter((flag) => !stands.has(flag) && (runOf.get(flag.id)?.flagIds.at(-1) ?? flag.id) === flag.id)
    .toSorted((a, b) => Date.parse(b.openedAt) - Date.parse(a.openedAt))
  const byFlag = new Map<string, FlagStep[]>()
  for (const step of steps) byFlag.set(step.flagId, [...(byFlag.get(step.flagId) ?? []), step])
  const stepsOf = (ids: readonly string[]) =>
    ids.flatMap((id) => byFlag.get(id) ?? []).toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
  return { runOf, standing, earlier, stepsOf }
}

type OneProps = {
  flag: Flag
  run: Flutter | undefined
  stepsOf: (ids: readonly string[]) => FlagStep[]
  page: PatientPage
}

function OneFlag({ flag, run, stepsOf, page }: OneProps) {
  const { finding, drain } = flag
  const { threshold } = finding
  const zone = page.clinic.timeZone
  const steps = stepsOf(run?.flagIds ?? [flag.id])
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
      <p className={css.quiet}>
        {finding.ends}
        {flag.ruleSet ? ` Opened under rule set ${flag.ruleSet}.` : ''}
      </p>
      <VerdictLine page={page} flagIds={run?.flagIds ?? [flag.id]} />
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
