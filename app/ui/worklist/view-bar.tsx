'use client'

import { LIST_COLUMNS, type ListColumn, ListOnly, type ListView } from '@/lib/domain/list-view.ts'
import { Select } from '../parts/select.tsx'
import { onlyLabels } from './arrange.ts'
import css from './worklist.module.css'

const sortLabels: Record<ListView['sort'], string> = {
  'act-by': 'Act by',
  name: 'Name',
  heard: 'Last heard, longest ago first',
  kind: 'Drain kind',
}
const groupLabels: Record<ListView['group'], string> = {
  none: 'None',
  urgency: 'Urgency',
  kind: 'Drain kind',
  with: 'With whom',
}
export const columnLabels: Record<ListColumn, string> = {
  drain: 'Drain',
  found: 'Reported',
  output: 'Net output',
  heard: 'Last heard',
}

type Props = { view: ListView; onChange: (part: Partial<ListView>) => void }

/** Whose rows are shown. */
export function OnlyChoice({ view, onChange }: Props) {
  return (
    <fieldset className={css.only}>
      <legend className="for-reader">Rows to show</legend>
      {ListOnly.options.map((only) => (
        <button
          key={only}
          type="button"
          aria-pressed={view.only === only}
          onClick={() => onChange({ only: view.only === only ? 'all' : only })}
        >
          {only === 'all' ? 'Everybody’s' : onlyLabels[only]}
        </button>
      ))}
    </fieldset>
  )
}

/** Sort, group and columns: kept for the person, and in the address. */
export function Arrangement({ view, onChange }: Props) {
  return (
    <details className={css.arrange}>
      <summary>
        Arrange
        <span>
          {' '}
          {[
            ...(view.sort === 'act-by' ? [] : [`by ${sortLabels[view.sort].toLowerCase()}`]),
            ...(view.group === 'none' ? [] : [`in groups by ${groupLabels[view.group].toLowerCase()}`]),
          ].join(', ')}
        </span>
      </summary>
      <div className={css.arrangeBox}>
        <label htmlFor="sort-by">
          Sort by{' '}
          <Select
            id="sort-by"
            value={view.sort}
            labels={sortLabels}
            onChange={(sort) => onChange({ sort: sort || 'act-by' })}
          />
        </label>
        <label htmlFor="group-by">
          Group by{' '}
          <Select
            id="group-by"
            value={view.group}
            labels={groupLabels}
            onChange={(group) => onChange({ group: group || 'none' })}
          />
        </label>
        <fieldset>
          <legend>Columns</legend>
          {LIST_COLUMNS.map((column) => (
            <label key={column}>
              <input
                type="checkbox"
                checked={view.columns.includes(column)}
                onChange={({ target }) =>
                  onChange({
                    columns: LIST_COLUMNS.filter((one) =>
                      one === column ? target.checked : view.columns.includes(one),
                    ),
                  })
                }
              />{' '}
              {columnLabels[column]}
            </label>
          ))}
        </fieldset>
      </div>
    </details>
  )
}
