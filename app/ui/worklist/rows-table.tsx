'use client'

import { createColumnHelper, tableFeatures, useTable } from '@tanstack/react-table'
import { Fragment, type ReactNode, type Ref, useImperativeHandle, useMemo, useRef } from 'react'
import type { ListColumn } from '@/lib/domain/list-view.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import type { Line } from './arrange.ts'
import { ActByCell, DrainCell, FindingsCell, HeardCell, OutputCell, PatientCell, WithCell } from './cells.tsx'
import { useDesk } from './desk.tsx'
import { holdText } from './row-text.ts'
import css from './rows-table.module.css'
import { Spacer } from './spacer.tsx'
import { useDrawn } from './use-drawn.ts'

/** No sorting of its own: the order is the server's, or what `arrange` makes of it, over all rows. */
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
const fixed = ['act-by', 'patient', 'with']

/** What the keyboard and the strip ask of the table. */
export type TableHandle = { reveal: (patientId: string, then: (line: HTMLElement) => void) => void }

type Props = {
  ref: Ref<TableHandle>
  lines: readonly Line[]
  /** The rows as they are now; one that is not among them has left the list. */
  live: ReadonlyMap<string, WorklistRow>
  chosen: readonly ListColumn[]
  caption: string
  /** The row with the focus, and the one that the strip points at. */
  focusedId: string | null
  pointedId: string | null
  onFocus: (patientId: string | null) => void
  onPoint: (patientId: string | null) => void
  upkeep: (open: boolean) => ReactNode
}

/** The rows, of which only those in sight are drawn; to whoever hears the page it is a table of all of them. */
export function RowsTable(props: Props) {
  const { ref, lines, live, chosen, caption, focusedId, pointedId, onFocus, onPoint, upkeep } = props
  const { now, staff } = useDesk()
  const body = useRef<HTMLTableSectionElement>(null)
  const ids = useMemo(() => lines.map(({ id }) => id), [lines])
  const { drawn, afterPx, measure, reveal, isMany } = useDrawn({ ids, body, focusedId })
  useImperativeHandle(ref, () => ({ reveal }), [reveal])

  const shown = useMemo(
    () => columns.filter(({ id }) => fixed.includes(id ?? '') || chosen.includes(id as ListColumn)),
    [chosen],
  )
  const data = drawn.flatMap(({ index }) => {
    const line = lines[index]
    return line?.kind === 'row' ? [live.get(line.id) ?? line.row] : []
  })
  const table = useTable({ features, columns: shown, data, getRowId: (row) => row.patientId })
  const rows = new Map(table.getRowModel().rows.map((row) => [row.id, row]))
  const span = shown.length

  return (
    <table className={css.table} aria-rowcount={lines.length + 1}>
      <caption className="for-reader">{caption}</caption>
      <thead>
        {table.getHeaderGroups().map((group) => (
          <tr key={group.id} aria-rowindex={1}>
            {group.headers.map((header) => (
              <th key={header.id} scope="col" data-column={header.column.id}>
                <table.FlexRender header={header} />
              </th>
            ))}
          </tr>
        ))}
      </thead>
      <tbody ref={body}>
        {drawn.map(({ index, roomPx }) => {
          const line = lines[index]
          if (!line) return null
          const place = {
            'data-index': index,
            'data-line': line.id,
            'aria-rowindex': index + 2,
            ref: measure,
          }
          const room = roomPx > 0 ? <Spacer height={roomPx} span={span} /> : null
          if (line.kind !== 'row')
            return (
              <Fragment key={line.id}>
                {room}
                <tr {...place} className={css.head}>
                  <th colSpan={span} scope="rowgroup">
                    {line.kind === 'upkeep' ? (
                      upkeep(line.open)
                    ) : (
                      <>
                        {line.text} <span>{line.count}</span>
                      </>
                    )}
                  </th>
                </tr>
              </Fragment>
            )
          const row = rows.get(line.id)
          if (!row) return null
          const isGone = !live.has(line.id)
          const hold = holdText(row.original.hold, now, staff.id)
          return (
            <Fragment key={line.id}>
              {room}
              <tr
                {...place}
                data-row={row.id}
                data-hold={hold ? (hold.isOwn ? 'own' : 'other') : undefined}
                data-gone={isGone || undefined}
                data-pointed={pointedId === row.id || undefined}
                onFocus={() => onFocus(row.id)}
                onPointerEnter={() => onPoint(row.id)}
                onPointerLeave={() => onPoint(null)}
              >
                {row.getAllCells().map((cell) =>
                  cell.column.id === 'patient' ? (
                    <th key={cell.id} scope="row" data-column="patient">
                      <table.FlexRender cell={cell} />
                      {isGone ? <p className={css.gone}>No longer on the list</p> : null}
                    </th>
                  ) : (
                    <td key={cell.id} data-column={cell.column.id}>
                      {isGone && cell.column.id === 'with' ? null : <table.FlexRender cell={cell} />}
                    </td>
                  ),
                )}
              </tr>
            </Fragment>
          )
        })}
        {afterPx > 0 ? <Spacer height={afterPx} span={span} /> : null}
      </tbody>
      {isMany ? (
        <tfoot className={css.printed}>
          <tr>
            <td colSpan={span}>
              Printed from the screen: only the rows in sight. The whole list is printed from Downtime.
            </td>
          </tr>
        </tfoot>
      ) : null}
    </table>
  )
}
