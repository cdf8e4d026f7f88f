'use client'

import {
  type ComponentType,
  Fragment,
  type ReactNode,
  type Ref,
  useImperativeHandle,
  useMemo,
  useRef,
} from 'react'
import type { ListColumn } from '@/lib/domain/list-view.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import type { Line } from './arrange.ts'
import { ActByCell, DrainCell, FindingsCell, HeardCell, OutputCell, PatientCell, WithCell } from './cells.tsx'
import { useDesk } from './desk.tsx'
import { holdText } from './row-text.ts'
import css from './rows-table.module.css'
import { Spacer } from './spacer.tsx'
import { useDrawn } from './use-drawn.ts'

type Column = {
  id: ListColumn | 'act-by' | 'patient' | 'with'
  header: string
  Cell: ComponentType<{ row: WorklistRow }>
}

/** The order of the rows is the server's, or what `arrange` makes of it, over all rows. */
const columns: readonly Column[] = [
  { id: 'act-by', header: 'Act by', Cell: ActByCell },
  { id: 'patient', header: 'Patient', Cell: PatientCell },
  { id: 'drain', header: 'Drain', Cell: DrainCell },
  { id: 'found', header: 'Reported, and against what', Cell: FindingsCell },
  { id: 'output', header: 'Net output, 14 days', Cell: OutputCell },
  { id: 'heard', header: 'Last heard', Cell: HeardCell },
  { id: 'with', header: 'With', Cell: WithCell },
]
const fixed: readonly string[] = ['act-by', 'patient', 'with']

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
  const { drawn, afterPx, reveal, isMany } = useDrawn({ ids, body, focusedId })
  useImperativeHandle(ref, () => ({ reveal }), [reveal])

  const shown = columns.filter(({ id }) => fixed.includes(id) || chosen.some((one) => one === id))
  const span = shown.length

  return (
    <table className={css.table} aria-rowcount={lines.length + 1}>
      <caption className="for-reader">{caption}</caption>
      <thead>
        <tr aria-rowindex={1}>
          {shown.map(({ id, header }) => (
            <th key={id} scope="col" data-column={id}>
              {header}
            </th>
          ))}
        </tr>
      </thead>
      <tbody ref={body}>
        {drawn.map(({ index, roomPx }) => {
          const line = lines[index]
          if (!line) return null
          const place = {
            'data-index': index,
            'data-line': line.id,
            'aria-rowindex': index + 2,
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
          const row = live.get(line.id) ?? line.row
          const isGone = !live.has(line.id)
          const hold = holdText(row.hold, now, staff.id)
          return (
            <Fragment key={line.id}>
              {room}
              <tr
                {...place}
                data-row={line.id}
                data-hold={hold ? (hold.isOwn ? 'own' : 'other') : undefined}
                data-gone={isGone || undefined}
                data-pointed={pointedId === line.id || undefined}
                onFocus={() => onFocus(line.id)}
                onPointerEnter={() => onPoint(line.id)}
                onPointerLeave={() => onPoint(null)}
              >
                {shown.map(({ id, Cell }) =>
                  id === 'patient' ? (
                    <th key={id} scope="row" data-column={id}>
                      <Cell row={row} />
                      {isGone ? <p className={css.gone}>No longer on the list</p> : null}
                    </th>
                  ) : (
                    <td key={id} data-column={id}>
                      {isGone && id === 'with' ? null : <Cell row={row} />}
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
