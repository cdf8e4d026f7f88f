import { importColumns } from '@/lib/domain/import-columns.ts'
import { Columns } from './columns.tsx'
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
      <Columns columns={importColumns} className={css.table} />
    </section>
  )
}
