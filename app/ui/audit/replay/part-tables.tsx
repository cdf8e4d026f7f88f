import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import type { ReplayPart, ReplayResult } from '@/lib/domain/replay.ts'
import { Marks } from '../../parts/marks.tsx'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import css from './replay.module.css'
import { estimateText, hours, moreHours, percent, points, signed } from './words.ts'

/** The figures of the whole period, and of its earlier and later weeks beside each other. */
export function PartTables({ result }: { result: ReplayResult }) {
  const { whole, earlier, later } = result
  const parts: [string, ReplayPart][] = [['Whole period', whole]]
  if (earlier && later) parts.push(['Earlier part', earlier], ['Later part', later])
  return (
    <>
      {earlier && later ? (
        <p className={audit.quiet}>
          A draft that was tuned on the earlier part fits it better than it will fit any other weeks: judge it
          by the later part.
        </p>
      ) : null}
      <Figures parts={parts} />
      <Flags name="Whole period" part={whole} />
      {parts.slice(1).map(([name, part]) => (
        <details key={name}>
          <summary>Flags of the {name.toLowerCase()}</summary>
          <Flags name={name} part={part} />
        </details>
      ))}
    </>
  )
}

const rowsOpened = (value: number | null) => (value === null ? 'not known' : value.toFixed(1))

function Figures({ parts }: { parts: readonly [string, ReplayPart][] }) {
  return (
    <section aria-labelledby="figures">
      <h2 id="figures">What would have changed</h2>
      <Scroll label="What would have changed, as a table">
        <table className={`${audit.table} ${css.table}`}>
          <caption>95% intervals in brackets, by patient; under five, counts stand alone</caption>
          <thead>
            <tr>
              <th scope="col">Figure</th>
              {parts.map(([name, { from, until }]) => (
                <th scope="col" key={name}>
                  {name}
                  <span className={audit.quiet}>
                    {fullDate(from)} to {fullDate(until)}
                  </span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {figures.map(([label, tell]) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                {parts.map(([name, part]) => (
                  <td key={name}>
                    {tell(part).map((line) => (
                      <span key={line} className={css.line}>
                        {line}
                      </span>
                    ))}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

const figures: readonly (readonly [string, (part: ReplayPart) => string[]])[] = [
  ['Patients, days', ({ patients, patientDays }) => [`${patients} patients, ${patientDays} days`]],
  [
    'Flags',
    ({ flags }) => [
      `in force ${flags.inForce}, replayed ${flags.draft}`,
      `${flags.gained} gained, ${flags.lost} lost`,
    ],
  ],
  [
    'The same flag, but',
    ({ moved }) => [
      `${moved.earlier} earlier, ${moved.later} later`,
      `${moved.more} more urgent, ${moved.less} less urgent`,
    ],
  ],
  [
    'Clinical rows opened per nurse’s day',
    ({ perNurseDay: { inForce, draft, nurseDays } }) => [
      `in force ${rowsOpened(inForce)}, replayed ${rowsOpened(draft)}`,
      `${nurseDays} days of a member of staff with a recorded call`,
    ],
  ],
  [
    'Predictive value of the clinical flags that were read',
    ({ predictiveValue: { inForce, draft, change } }) => [
      `in force ${estimateText(inForce, percent, 'verdicts')}`,
      `replayed ${estimateText(draft, percent, 'verdicts')}`,
      `change ${estimateText(change, points, 'verdicts')}`,
    ],
  ],
  [
    'Known outside events that a flag told of',
    ({ eventsFound: { inForce, draft, change } }) => [
      `in force ${estimateText(inForce, percent, 'events')}`,
      `replayed ${estimateText(draft, percent, 'events')}`,
      `change ${estimateText(change, points, 'events')}`,
    ],
  ],
  [
    'Hours ahead of those, median',
    ({ hoursAhead: { inForce, draft, change } }) => [
      `in force ${estimateText(inForce, hours, 'events')}`,
      `replayed ${estimateText(draft, hours, 'events')}`,
      `change ${estimateText(change, moreHours, 'events')}`,
    ],
  ],
]

function Flags({ name, part }: { name: string; part: ReplayPart }) {
  const { byUrgency, byCode } = part
  return (
    <Scroll label={`Flags, ${name.toLowerCase()}`}>
      <table className={`${audit.table} ${css.table}`}>
        <caption>Flags, {name.toLowerCase()}: a flag counts with the highest urgency that it had</caption>
        <thead>
          <tr>
            <th scope="col">Urgency or finding</th>
            {['In force', 'Replayed', 'Gained', 'Lost', 'Change'].map((word) => (
              <th scope="col" key={word} className={audit.number}>
                {word}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {byUrgency.map(({ urgency, ...counts }) => (
            <CountRow key={urgency} counts={counts}>
              <Marks urgency={urgency} /> {urgencyLabels[urgency]}
            </CountRow>
          ))}
        </tbody>
        <tbody>
          {byCode.map(({ code, ...counts }) => (
            <CountRow key={code} counts={counts}>
              {findingLabels[code]}
            </CountRow>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

type Counts = { inForce: number; draft: number; gained: number; lost: number }

function CountRow({ counts, children }: { counts: Counts; children: React.ReactNode }) {
  const { inForce, draft, gained, lost } = counts
  return (
    <tr data-changed={gained > 0 || lost > 0 || undefined}>
      <th scope="row">{children}</th>
      {[inForce, draft, gained, lost].map((count, i) => (
        <td key={i} className={audit.number}>
          {count}
        </td>
      ))}
      <td className={audit.number}>{signed(draft - inForce)}</td>
    </tr>
  )
}
