import Link from 'next/link'
import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { addDays, dayAndTime, dayMonth, daysBetween, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { ReplayedLife, ReplayPatient } from '@/lib/domain/replay.ts'
import { Marks } from '../../parts/marks.tsx'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { lanesOf, placeOf } from './lanes.ts'
import css from './replay.module.css'

const WIDTH = 900
const LABEL = 350
const LANE = 30
const HEAD = 44
/** What the day of a tick takes beside it. */
const TICK = 40

/** One patient's flags under what was in force and under what was replayed: a drawing, and all of it as a table. */
export function BothCourses({ id, courses, zone }: { id: string; courses: ReplayPatient; zone: string }) {
  const { name, birthDate, recordNumber, drains, flags, patientId } = courses
  const label = (drain: string | null) => drains.find((one) => one.id === drain)?.label ?? null
  return (
    <div className={audit.screen}>
      <div>
        <h1>{name}</h1>
        <p>
          Born {fullDate(birthDate)}, {recordNumber}.{' '}
          <Link href={`/patients/${encodeURIComponent(patientId)}`} prefetch={false}>
            The patient’s page
          </Link>
          {' · '}
          <Link href={`/audit/replays/${encodeURIComponent(id)}`} prefetch={false}>
            Back to the replay
          </Link>
        </p>
        <p className={audit.quiet}>
          Calls already made changed what followed; they stand in both courses as they were made. Times are
          those of the clinic.
        </p>
      </div>
      <Drawing courses={courses} label={label} zone={zone} />
      <Scroll label="Flags that stood in the period">
        <table className={`${audit.table} ${css.table}`}>
          <caption>Flags that stood in the period, side by side</caption>
          <thead>
            <tr>
              <th scope="col">Finding</th>
              <th scope="col">In force</th>
              <th scope="col">Replayed</th>
            </tr>
          </thead>
          <tbody>
            {flags.map(({ inForce, draft }, i) => {
              const one = inForce ?? draft
              return one ? (
                <tr key={i} data-changed={!inForce || !draft || undefined}>
                  <th scope="row">
                    {findingLabels[one.code]}
                    {one.drain ? <span className={audit.quiet}>{label(one.drain)}</span> : null}
                  </th>
                  <Course life={inForce} zone={zone} />
                  <Course life={draft} zone={zone} />
                </tr>
              ) : null
            })}
          </tbody>
        </table>
      </Scroll>
    </div>
  )
}

function Course({ life, zone }: { life: ReplayedLife | null; zone: string }) {
  if (!life) return <td>no such flag</td>
  const { urgency, openedAt, endedAt, says } = life
  return (
    <td>
      <Marks urgency={urgency} /> {urgencyLabels[urgency]}, {dayAndTime(openedAt, zone)} to{' '}
      {endedAt ? dayAndTime(endedAt, zone) : 'the end of the period'}
      <span className={audit.quiet}>{says}</span>
    </td>
  )
}

type Drawn = { courses: ReplayPatient; label: (drain: string | null) => string | null; zone: string }

/** The same as bars over the days: what was in force above, what was replayed below; outlined where only one has it. */
function Drawing({ courses, label, zone }: Drawn) {
  const lanes = lanesOf(courses, WIDTH)
  const place = placeOf(courses, WIDTH)
  const height = HEAD + lanes.length * LANE + 8
  const first = localDate(courses.from, zone)
  const days = daysBetween(first, localDate(courses.until, zone))
  const step = Math.max(1, Math.ceil(days / 12))
  const xOf = (i: number) => LABEL + (i * step * WIDTH) / Math.max(1, days + 1)
  const ticks = Array.from({ length: Math.floor(days / step) + 1 }, (_, i) => addDays(first, i * step))
  return (
    <figure className={css.figure}>
      <figcaption className={audit.quiet}>
        Above in each lane what was in force, below what was replayed; outlined where only one of them has the
        flag. Short strokes: reports; long strokes: calls that reached the patient.
      </figcaption>
      <svg
        viewBox={`0 0 ${LABEL + WIDTH + 10} ${height}`}
        className={css.drawing}
        role="img"
        aria-label="Both courses over the days; the table below says the same"
      >
        {ticks.map((date, i) => {
          const x = xOf(i)
          return (
            <g key={date}>
              <line x1={x} x2={x} y1={HEAD - 6} y2={height} className={css.grid} />
              {x < LABEL + WIDTH - TICK ? (
                <text x={x + 2} y={12} className={css.tick}>
                  {dayMonth(date)}
                </text>
              ) : null}
            </g>
          )
        })}
        {courses.reports.map((at) => (
          <line
            key={at}
            x1={LABEL + place(at)}
            x2={LABEL + place(at)}
            y1={30}
            y2={36}
            className={css.report}
          />
        ))}
        {courses.calls
          .filter(({ reached }) => reached)
          .map(({ at }) => (
            <line
              key={at}
              x1={LABEL + place(at)}
              x2={LABEL + place(at)}
              y1={20}
              y2={36}
              className={css.call}
            />
          ))}
        {lanes.map(({ key, code, drain, bars }, i) => (
          <g key={key}>
            <text x={0} y={HEAD + i * LANE + 16} className={css.lane}>
              {findingLabels[code]}
              {drain ? `, ${label(drain) ?? ''}` : ''}
            </text>
            {bars.map(({ side, x, width, rank, isAlone }) => (
              <rect
                key={`${side} ${x} ${width}`}
                x={LABEL + x}
                y={HEAD + i * LANE + (side === 'inForce' ? 3 : 14)}
                width={width}
                height={9}
                className={isAlone ? css.alone : css.bar}
                data-rank={rank}
              />
            ))}
          </g>
        ))}
      </svg>
    </figure>
  )
}
