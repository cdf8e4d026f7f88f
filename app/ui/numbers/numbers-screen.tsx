'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { numbersQuery } from '@/lib/client/numbers-queries.ts'
import { urgencyLabels } from '@/lib/domain/labels.ts'
import { clockTime, dayMonth, weekday } from '@/lib/domain/local-time.ts'
import type { FirstAttempt, Numbers } from '@/lib/domain/numbers.ts'
import { Marks } from '../parts/marks.tsx'
import { Scroll } from '../parts/scroll.tsx'
import { SERIES, seriesLabels } from './chart.ts'
import { HoursChart } from './hours-chart.tsx'
import css from './numbers.module.css'

/** Minutes as a charge nurse says them. @example minutesText(75) // '1 h 15 min' */
export function minutesText(minutes: number): string {
  const whole = Math.round(minutes)
  if (whole < 1) return 'under 1 min'
  return whole < 60 ? `${whole} min` : `${Math.floor(whole / 60)} h ${whole % 60} min`
}

const medianText = ({ medianMinutes }: FirstAttempt) =>
  medianMinutes === null ? 'not enough: none tried' : minutesText(medianMinutes)

/** The day in numbers: what waits, how long it waited, and how the day went. Read again each minute. */
export function NumbersScreen() {
  const { data, error } = useSuspenseQuery(numbersQuery)
  const { asOf, clinic, date } = data
  const [all] = data.first
  const over = data.waiting.reduce((sum, { overdue }) => sum + overdue, 0)
  return (
    <div className={css.screen}>
      <div>
        <h1>
          Numbers of {weekday(date)} {dayMonth(date)}
        </h1>
        <p className={css.hint}>As of {clockTime(asOf, clinic.timeZone)}; read again each minute.</p>
        <p role="status" className={error ? css.lost : undefined}>
          {error
            ? `The server does not answer. What you see is as of ${clockTime(asOf, clinic.timeZone)}.`
            : ''}
        </p>
      </div>
      <dl className={css.key}>
        <div>
          <dt>Overdue now</dt>
          <dd>{over}</dd>
        </div>
        <div>
          <dt>Median to the first attempt today</dt>
          <dd>{all ? medianText(all) : ''}</dd>
          <dd className={css.hint}>
            {all ? `${all.tried} of ${all.opened} that opened today were tried so far` : ''}
          </dd>
        </div>
      </dl>
      <div className={css.tables}>
        <WaitingTable numbers={data} />
        <FirstTable first={data.first} />
      </div>
      <section aria-labelledby="by-hour" className={css.part}>
        <h2 id="by-hour">By the hour of the clinic’s day</h2>
        <HoursChart hours={data.hours} />
        <HoursTable numbers={data} />
        <p className={css.hint}>
          A row opens when the first of a patient’s clinical flags opens in that hour. A call that came in
          counts as one that reached; one that was taken back does not count. A dash is still to come.
        </p>
      </section>
    </div>
  )
}

function WaitingTable({ numbers: { waiting, upkeep } }: { numbers: Numbers }) {
  return (
    <table className={css.table}>
      <caption>Waiting for a call now</caption>
      <thead>
        <tr>
          <th scope="col">Urgency</th>
          <th scope="col">Rows</th>
          <th scope="col">Overdue</th>
        </tr>
      </thead>
      <tbody>
        {waiting.map(({ urgency, rows, overdue }) => (
          <tr key={urgency}>
            <th scope="row">
              <Marks urgency={urgency} /> {urgencyLabels[urgency]}
            </th>
            <td>{rows}</td>
            <td>{overdue}</td>
          </tr>
        ))}
        <tr>
          <th scope="row">Upkeep</th>
          <td>{upkeep.rows}</td>
          <td>{upkeep.overdue}</td>
        </tr>
      </tbody>
    </table>
  )
}

function FirstTable({ first }: { first: readonly FirstAttempt[] }) {
  return (
    <table className={css.table}>
      <caption>From a flag’s opening to the first attempt, today</caption>
      <thead>
        <tr>
          <th scope="col">Urgency</th>
          <th scope="col">Opened</th>
          <th scope="col">Tried</th>
          <th scope="col">Median</th>
        </tr>
      </thead>
      <tbody>
        {first.map((one) => (
          <tr key={one.urgency}>
            <th scope="row">{one.urgency === 'all' ? 'All' : urgencyLabels[one.urgency]}</th>
            <td>{one.opened}</td>
            <td>{one.tried}</td>
            <td>{one.opened === 0 ? 'not enough: none opened' : medianText(one)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function HoursTable({ numbers: { hours } }: { numbers: Numbers }) {
  return (
    <Scroll label="The same in numbers">
      <table className={css.hours}>
        <caption className="for-reader">By the hour</caption>
        <thead>
          <tr>
            <th scope="col">Hour</th>
            {hours.map(({ from, label }) => (
              <th key={from} scope="col">
                {label.replace(':00', '')}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {SERIES.map((series) => (
            <tr key={series}>
              <th scope="row">{seriesLabels[series]}</th>
              {hours.map((hour) => (
                <td key={hour.from}>{hour[series] ?? '–'}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
