import { Scroll } from '../parts/scroll.tsx'

type Column = { name: string; isNeeded: boolean; about: string; accepted: string }

/** The columns of a file, what each says, and what is accepted in it. */
export function Columns({
  columns,
  className,
}: {
  columns: readonly Column[]
  className: string | undefined
}) {
  return (
    <Scroll label="Columns, as a table">
      <table className={className}>
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col">What it says</th>
            <th scope="col">Accepted</th>
          </tr>
        </thead>
        <tbody>
          {columns.map(({ name, isNeeded, about, accepted }) => (
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
    </Scroll>
  )
}
