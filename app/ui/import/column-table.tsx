import { importColumns } from '@/lib/domain/import-columns.ts'
import css from './import.module.css'

/** What a file has to look like. */
export function ColumnTable() {
  return (
    <section aria-labelledby="columns" className={css.columns}>
      <h2 id="columns">Columns of the file</h2>
      <p>
        Text in UTF-8, values separated by commas, the names of the columns in the first line, in any order.
        One line is one report of one patient. A value that is left empty says nothing.
      </p>
      <table className={css.table}>
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col">What it says</th>
            <th scope="col">Accepted</th>
          </tr>
        </thead>
        <tbody>
          {importColumns.map(({ name, isNeeded, about, accepted }) => (
            <tr key={name}>
              <th scope="row">
                {name}
                {isNeeded ? ' (needed)' : ''}
              </th>
              <td>{about}</td>
              <td>{accepted}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
