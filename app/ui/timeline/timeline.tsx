'use client'

import { useMemo, useState } from 'react'
import { inPlace, tubeSince } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { daysBetween, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { axisOf, RANGES, type Range } from './axis.ts'
import { Chart } from './chart.tsx'
import { DayTable } from './day-table.tsx'
import css from './timeline.module.css'
import { tracksOf } from './tracks.ts'

/** One time axis for everything that is known of a patient: as a chart, or the same as a table. */
export function Timeline({ page }: { page: PatientPage }) {
  const [range, setRange] = useState<Range>(14)
  const [view, setView] = useState<'chart' | 'table'>('chart')
  const now = Date.parse(page.asOf)
  const { timeZone: zone } = page.record

  const drains = useMemo(() => {
    const lying = inPlace(page)
    return (lying.length > 0 ? lying : page.record.drains).map(({ id }) => id)
  }, [page])
  const axis = useMemo(() => {
    const first = page.assessment.drains
      .flatMap(({ days }) => days.slice(0, 1).map(({ date }) => date))
      .toSorted()[0]
    return axisOf(range, first ?? localDate(page.record.enrolledAt, zone), now, zone)
  }, [page, range, now, zone])
  const tracks = useMemo(() => tracksOf(page, axis, now), [page, axis, now])

  return (
    <section className={css.panel} aria-label="Timeline">
      <div className={css.head}>
        <h2 className={css.drains}>
          {page.record.drains
            .filter(({ id }) => drains.includes(id))
            .map((drain) => {
              const since = localDate(tubeSince(page, drain), zone)
              const size = page.labels[drain.id]?.frenchSize
              return (
                <span key={drain.id}>
                  {capital(page.labels[drain.id]?.label ?? drain.id)}
                  {size ? ` · ${size} F` : ''} · since {fullDate(since)}, day{' '}
                  {daysBetween(since, localDate(now, zone)) + 1}
                </span>
              )
            })}
        </h2>
        <fieldset className={css.choices} aria-label="Days shown">
          {RANGES.map((one) => (
            <button
              key={one}
              type="button"
              data-quiet
              aria-pressed={range === one}
              onClick={() => setRange(one)}
            >
              {one === 'all' ? 'all' : one === 14 ? '14 days' : one}
            </button>
          ))}
        </fieldset>
        <fieldset className={css.choices} aria-label="Shown as">
          {(['chart', 'table'] as const).map((one) => (
            <button
              key={one}
              type="button"
              data-quiet
              aria-pressed={view === one}
              onClick={() => setView(one)}
            >
              {one}
            </button>
          ))}
        </fieldset>
      </div>
      {view === 'chart' ? (
        <>
          <p className={css.unit}>
            Net output, mL a day
            {drains.length > 1 ? `: ${drains.map((id) => page.labels[id]?.label ?? id).join(', then ')}` : ''}
            . Days of {zone.replaceAll('_', ' ')}. Band: usual ± 10%.
          </p>
          <Chart page={page} axis={axis} tracks={tracks} drains={drains} />
        </>
      ) : (
        <DayTable page={page} axis={axis} tracks={tracks} drains={drains} />
      )}
    </section>
  )
}
