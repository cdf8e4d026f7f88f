'use client'

import { createColumnHelper, tableFeatures, useTable } from '@tanstack/react-table'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { ActByCell, DrainCell, FindingsCell, HeardCell, OutputCell, PatientCell, WithCell } from './cells.tsx'
import { useDesk } from './desk.tsx'
import { holdText } from './row-text.ts'
import css from './rows-table.module.css'

/** No sorting: the order is the server's, the same for everybody. */
const features = tableFeatures({})
const column = createColumnHelper<typeof features, WorklistRow>()
const columns = column.columns([
  column.display({ id: 'act-by', header: 'Act by', cell: ({ row }) => <ActByCell row={row.original} /> }),
  column.display({ id: 'patient', header: 'Patient', cell: ({ row }) => <PatientCell row={row.original} /> }),
  column.display({ id: 'drain', header: 'Drain', cell: ({ row }) => <DrainCell row={row.original} /> }),
  column.display({
    id: 'found',
    header: 'Reported, and against what',
    cell: ({ row }) => <FindingsCell row={row.original} />,
  }),
  column.display({
    id: 'output',
    header: 'Net output, 14 days',
    cell: ({ row }) => <OutputCell row={row.original} />,
  }),
  column.display({ id: 'heard', header: 'Last heard', cell: ({ row }) => <HeardCell row={row.original} /> }),
  column.display({ id: 'with', header: 'With', cell: ({ row }) => <WithCell row={row.original} /> }),
])

export function RowsTable({ rows, caption }: { rows: WorklistRow[]; caption: string }) {
  const { now, staff } = useDesk()
  const table = useTable({ features, columns, data: rows, getRowId: (row) => row.patientId })
  return (
    <table className={css.table}>
      <caption className="for-reader">{caption}</caption>
      <thead>
        {table.getHeaderGroups().map((group) => (
          <tr key={group.id}>
            {group.headers.map((header) => (
              <th key={header.id} scope="col" data-column={header.column.id}>
                <table.FlexRender header={header} />
              </th>
            ))}
          </tr>
        ))}
      </thead>
      <tbody>
        {table.getRowModel().rows.map((row) => {
          const hold = holdText(row.original.hold, now, staff.id)
          return (
            <tr key={row.id} data-row={row.id} data-hold={hold ? (hold.isOwn ? 'own' : 'other') : undefined}>
              {row.getAllCells().map((cell) =>
                cell.column.id === 'patient' ? (
                  <th key={cell.id} scope="row" data-column="patient">
                    <table.FlexRender cell={cell} />
                  </th>
                ) : (
                  <td key={cell.id} data-column={cell.column.id}>
                    <table.FlexRender cell={cell} />
                  </td>
                ),
              )}
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
