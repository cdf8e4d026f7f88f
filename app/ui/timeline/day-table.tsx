import { dayMonth, weekday } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Picture } from './picture.ts'
import { levelTexts, tableRows } from './table-rows.ts'
import css from './timeline.module.css'

const columns = [
  ['flush', 'Flush'],
  ['dressing', 'Dressing'],
  ['temperature', 'Temperature'],
  ['pain', 'Pain'],
  ['signs', 'Signs'],
  ['site', 'Site'],
  ['events', 'Events'],
  ['flags', 'Flags that stood'],
  ['calls', 'Calls and notes'],
] as const

/** The timeline as a table: every number and mark of the chart. */
export function DayTable({ page, picture }: { page: PatientPage; picture: Picture }) {
  const { outputs } = picture
  const rows = tableRows(picture)
  const hasExtra = rows.some(({ extra }) => extra.some(Boolean))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className={css.scroll} tabIndex={0} aria-label="Timeline as a table">
      <ul className={css.levels}>
        {levelTexts(picture).map(({ id, text }) => (
          <li key={id}>{text}</li>
        ))}
      </ul>
      <table className={css.table}>
        <caption className="for-reader">
          {page.patient.name}: day by day, the newest first, in the patient’s own time
        </caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            {outputs.map(({ id, label }) => (
              <th key={id} scope="col">
                {outputs.length > 1 ? `Net output, ${label}` : 'Net output'}
              </th>
            ))}
            {hasExtra
              ? outputs.map(({ id, label }) => (
                  <th key={id} scope="col">
                    {outputs.length > 1 ? `Held against, ${label}` : 'Held against'}
                  </th>
                ))
              : null}
            {columns.map(([key, title]) => (
              <th key={key} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.date}>
              <th scope="row">
                {weekday(row.date)} {dayMonth(row.date)}
              </th>
              {row.output.map((text, i) => (
                <td key={outputs[i]?.id}>{text}</td>
              ))}
              {hasExtra ? row.extra.map((text, i) => <td key={outputs[i]?.id}>{text}</td>) : null}
              {columns.map(([key]) => (
                <td key={key}>{row[key]}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
