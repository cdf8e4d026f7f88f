'use client'

import { memo, useCallback, useEffect, useMemo, useRef } from 'react'
import { type PaperColumn, type PaperFault, paperColumns, withCell } from '@/lib/domain/paper-sheet.ts'
import css from './paper.module.css'
import { type SheetRow, sheetRow } from './use-sheet.ts'

type Props = {
  rows: SheetRow[]
  faults: readonly PaperFault[]
  onCell: (rows: SheetRow[]) => void
  onPaste: (text: string) => void
}

/** The sheet itself. A table that is pasted into a cell is laid into the sheet; Enter goes one row down. */
export function PaperGrid({ rows, faults, onCell, onPaste }: Props) {
  const latest = useRef({ rows, onCell, onPaste })
  useEffect(() => {
    latest.current = { rows, onCell, onPaste }
  })
  const set = useCallback((id: number, column: PaperColumn, text: string) => {
    const { rows: before, onCell: tell } = latest.current
    const next = before.map((row) => (row.id === id ? { id, cells: withCell(row.cells, column, text) } : row))
    // There is always an empty row to go on in.
    const isLast = next.at(-1)?.id === id && next.length < 500
    tell(isLast ? [...next, sheetRow()] : next)
  }, [])
  const remove = useCallback((id: number) => {
    const { rows: before, onCell: tell } = latest.current
    const left = before.filter((row) => row.id !== id)
    tell(left.length > 0 ? left : [sheetRow()])
  }, [])
  const laid = useCallback((text: string) => latest.current.onPaste(text), [])
  const faultsOf = useMemo(() => {
    const byRow = new Map<number, PaperFault[]>()
    for (const fault of faults) byRow.set(fault.row, [...(byRow.get(fault.row) ?? []), fault])
    return byRow
  }, [faults])
  return (
    <section className={css.scroll} aria-label="Rows of the sheet" tabIndex={-1}>
      <table className={css.grid}>
        <thead>
          <tr>
            <th scope="col">Row</th>
            {paperColumns.map(({ name, label }) => (
              <th key={name} scope="col">
                {label}
              </th>
            ))}
            <th scope="col">
              <span className="for-reader">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <Row
              key={row.id}
              row={row}
              number={i + 1}
              faults={faultsOf.get(i + 1) ?? NO_FAULTS}
              set={set}
              remove={remove}
              laid={laid}
            />
          ))}
        </tbody>
      </table>
    </section>
  )
}

const NO_FAULTS: readonly PaperFault[] = []

type RowProps = {
  row: SheetRow
  number: number
  faults: readonly PaperFault[]
  set: (id: number, column: PaperColumn, text: string) => void
  remove: (id: number) => void
  laid: (text: string) => void
}

const Row = memo(function Row({ row, number, faults, set, remove, laid }: RowProps) {
  const faultId = `row-${row.id}-faults`
  return (
    <>
      <tr>
        <th scope="row">{number}</th>
        {paperColumns.map(({ name, label }, i) => (
          <td key={name}>
            <input
              aria-label={`${label}, row ${number}`}
              aria-invalid={faults.some(({ column }) => column === name) || undefined}
              aria-describedby={faults.length > 0 ? faultId : undefined}
              className={css[name]}
              autoComplete="off"
              spellCheck={name === 'note'}
              value={row.cells[i] ?? ''}
              onChange={(event) => set(row.id, name, event.target.value)}
              onPaste={(event) => {
                const text = event.clipboardData.getData('text/plain')
                if (!/[\t\n]/.test(text.trim())) return
                event.preventDefault()
                laid(text)
              }}
              onKeyDown={(event) => {
                const step =
                  event.key === 'Enter' || event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0
                if (step !== 0 && goTo(event.currentTarget, i, step)) event.preventDefault()
              }}
            />
          </td>
        ))}
        <td>
          <button type="button" data-quiet tabIndex={-1} onClick={() => remove(row.id)}>
            <span aria-hidden="true">×</span>
            <span className="for-reader">Remove row {number}</span>
          </button>
        </td>
      </tr>
      {faults.length > 0 ? (
        <tr className={css.faults}>
          <td />
          <td colSpan={paperColumns.length + 1} id={faultId}>
            {faults.map(({ column, value, message }, i) => (
              // Two faults of one row can say the same; the list never changes its order.
              <p key={i}>
                Row {number}
                {column ? `, ${labelOf(column)}` : ''}
                {value ? ` “${value}”` : ''} {message}
              </p>
            ))}
          </td>
        </tr>
      ) : null}
    </>
  )
})

const labelOf = (column: PaperColumn) => paperColumns.find(({ name }) => name === column)?.label ?? column

/** Moves the focus to the same column of the row above or below, if there is one. */
function goTo(from: HTMLElement, column: number, step: 1 | -1): boolean {
  const rows = [...(from.closest('tbody')?.rows ?? [])].filter((row) => row.querySelector('input'))
  const at = rows.findIndex((row) => row.contains(from))
  const to = rows[at + step]?.querySelectorAll('input')[column]
  to?.focus()
  return to !== undefined
}
