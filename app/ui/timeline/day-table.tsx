import { capital } from '@/lib/domain/capital.ts'
import { dayMonth, weekday } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Axis } from './axis.ts'
import { tableRows } from './table-rows.ts'
import css from './timeline.module.css'
import type { Tracks } from './tracks.ts'

type Props = { page: PatientPage; axis: Axis; tracks: Tracks; drains: readonly string[] }

/** The timeline as a table. */
export function DayTable({ page, axis, tracks, drains }: Props) {
  const labelOf = (drain: string) =>
    drains.length > 1 ? `Net output, ${capital(page.labels[drain]?.label ?? drain)}` : 'Net output'
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className={css.scroll} tabIndex={0} aria-label="Timeline as a table">
      <table className={css.table}>
        <caption className="for-reader">Day by day, the newest first, in the patient’s own time</caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            {drains.map((drain) => (
              <th key={drain} scope="col">
                {labelOf(drain)}
              </th>
            ))}
            <th scope="col">Flush</th>
            <th scope="col">Dressing</th>
            <th scope="col">Temperature</th>
            <th scope="col">Pain</th>
            <th scope="col">Site</th>
            <th scope="col">Events and calls</th>
          </tr>
        </thead>
        <tbody>
          {tableRows(page, axis, tracks, drains).map((row) => (
            <tr key={row.date}>
              <th scope="row">
                {weekday(row.date)} {dayMonth(row.date)}
              </th>
              {row.output.map((text, i) => (
                <td key={drains[i]}>{text}</td>
              ))}
              <td>{row.flush}</td>
              <td>{row.dressing}</td>
              <td>{row.temperature}</td>
              <td>{row.pain}</td>
              <td>{row.site}</td>
              <td>{row.events}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
