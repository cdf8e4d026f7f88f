'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { figuresQuery } from '@/lib/client/figures-queries.ts'
import { groupLabels } from '@/lib/domain/figure-text.ts'
import { FigureGroup } from '@/lib/domain/figures.ts'
import { addDays, clockTime, dayMonth, weekday } from '@/lib/domain/local-time.ts'
import audit from '../audit.module.css'
import { FigureTable } from './figure-table.tsx'
import css from './figures.module.css'
import { Primary } from './primary.tsx'
import { SPANS } from './spans.ts'

/** The figures of a span of weeks: the one named beforehand, then the others, which are descriptive. */
export function FiguresScreen({ weeks }: { weeks: number }) {
  const { data } = useSuspenseQuery(figuresQuery(weeks))
  const { asOf, clinic, from, until, figures, primary, unreadable } = data
  const span = { from, until }
  return (
    <div className={css.screen}>
      <div className={css.head}>
        <h1>Figures</h1>
        <nav aria-label="Span" className={css.spans}>
          {SPANS.map((one) => (
            <Link
              key={one}
              href={`/audit/figures?weeks=${one}`}
              prefetch={false}
              aria-current={one === weeks ? 'page' : undefined}
            >
              {one} weeks
            </Link>
          ))}
        </nav>
        <p className={audit.quiet}>
          Whole weeks from {weekday(from)} {dayMonth(from)} to {weekday(addDays(until, -1))}{' '}
          {dayMonth(addDays(until, -1))}, as known at {clockTime(asOf, clinic.timeZone)}. Intervals are 95%.
          Under five, counts stand alone. Only the figure that was named beforehand is a verdict; the others
          describe.
        </p>
        {unreadable > 0 ? (
          <p role="alert" className={css.lost}>
            {unreadable} rows of the store could not be read and are in no figure.
          </p>
        ) : null}
      </div>
      <Primary page={data} />
      {FigureGroup.options.map((group) => (
        <FigureTable
          key={group}
          title={groupLabels[group]}
          figures={figures.filter((one) => one.group === group && one.name !== primary?.figure)}
          span={span}
        />
      ))}
    </div>
  )
}
