'use client'

import dynamic from 'next/dynamic'
import { useEffect, useMemo, useState } from 'react'
import type { Earlier } from '@/lib/client/use-patient-page.ts'
import { daysBetween, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { dateAt, RANGES, type Range } from './axis.ts'
import type { Chart as ChartType } from './chart.tsx'
import { DayTable } from './day-table.tsx'
import { dayLines } from './day-text.ts'
import { canSum, type Output } from './outputs.ts'
import type { Picture } from './picture.ts'
import css from './timeline.module.css'
import { useDays } from './use-days.ts'
import { usePicture, type Wishes } from './use-picture.ts'

/** In a file of its own, which the answer names at its head: it comes while the rest of the page does. */
const Chart = dynamic(() =>
  import('./chart.tsx').then(
    ({ Chart }) => Chart,
    () => NoChart,
  ),
)
const NoChart: typeof ChartType = () => (
  <p role="alert">The chart could not be drawn. The table says the same.</p>
)

const START: Wishes = { range: 14, mode: 'each', slow: false, course: false }
const rangeNames: Readonly<Record<Range, string>> = {
  14: '14 days',
  30: '30',
  90: '90',
  placement: 'since placement',
}

type Props = {
  page: PatientPage
  earlier: Earlier
  /** A day of a drain was chosen, by a click on its bar or by Enter. */
  onDay?: (drain: string, date: string) => void
}

/** One time axis for everything that is known of a patient: as a chart, or the same as a table. */
export function Timeline({ page, earlier, onDay }: Props) {
  const [wishes, setWishes] = useState(START)
  const [view, setView] = useState<'chart' | 'table'>('chart')
  const { picture: whole, drains, isMissing, says } = usePicture(page, wishes, earlier.hasFailed)
  const { axis, outputs } = whole
  const { want } = earlier
  useEffect(() => {
    if (isMissing) want()
  }, [isMissing, want])
  const open = (day: number, output: Output | null | undefined) => {
    const date = dateAt(axis, day)
    // Of a sum its first drain is opened; there the others are a step away.
    const [first] = output?.drains ?? []
    if (first && output?.days.some((one) => one.date === date)) onDay?.(first, date)
  }
  const days = useDays(axis, outputs.length, (day, focus) => open(day, outputs[focus]))
  const { from, to } = days.shown
  const picture = useMemo((): Picture => ({ ...whole, shown: { from, to } }), [whole, from, to])
  const change = (part: Partial<Wishes>) => {
    setWishes({ ...wishes, ...part })
    if (part.range !== undefined) days.whole()
  }

  return (
    <section id="timeline" className={css.panel} aria-label="Timeline">
      <div className={css.head}>
        <h2 className={css.drains}>
          <Heading page={page} outputs={outputs} />
        </h2>
        <Choice
          label="Days shown"
          all={RANGES}
          chosen={wishes.range}
          name={(one) => rangeNames[one]}
          onChoose={(range) => change({ range })}
        />
        <Choice
          label="Shown as"
          all={['chart', 'table'] as const}
          chosen={view}
          name={String}
          onChoose={setView}
        />
      </div>
      <div className={css.tools}>
        <p className={css.unit}>
          Net output, mL a day, days of {axis.zone.replaceAll('_', ' ')}. Band: usual ± 10%. Hatched: hours
          missing.
        </p>
        <div className={css.wishes}>
          {days.isNarrowed && view === 'chart' ? (
            <>
              <button type="button" data-quiet onClick={days.back}>
                one step out
              </button>
              <button type="button" data-quiet onClick={days.whole}>
                all days
              </button>
            </>
          ) : null}
          {canSum(drains) ? (
            <button
              type="button"
              data-quiet
              aria-pressed={wishes.mode === 'sum'}
              onClick={() => change({ mode: wishes.mode === 'sum' ? 'each' : 'sum' })}
            >
              summed
            </button>
          ) : null}
          <button
            type="button"
            data-quiet
            aria-pressed={wishes.slow}
            onClick={() => change({ slow: !wishes.slow })}
          >
            slow change
          </button>
          <button
            type="button"
            data-quiet
            aria-pressed={wishes.course}
            onClick={() => change({ course: !wishes.course })}
          >
            usual course here
          </button>
        </div>
      </div>
      <p role="status" className={says.length > 0 ? css.says : undefined}>
        {says.join(' ')}
      </p>
      {isMissing && earlier.hasFailed ? (
        <p className={css.says}>
          <button type="button" data-quiet onClick={earlier.again}>
            Try again
          </button>
        </p>
      ) : null}
      {view === 'chart' ? (
        <>
          <div
            className={css.steps}
            role="application"
            // biome-ignore lint/a11y/noNoninteractiveTabindex: its keys step from day to day
            tabIndex={0}
            aria-label="Timeline, day by day"
            aria-describedby="timeline-keys"
            onKeyDown={days.onKeyDown}
          >
            <Chart
              picture={picture}
              step={days.step}
              onShown={days.narrow}
              onPick={(day, output) => {
                days.stand(day, Math.max(0, output ? outputs.indexOf(output) : 0))
                open(day, output)
              }}
            />
          </div>
          <p className={css.live} role="status">
            {days.step === null ? '' : liveText(picture, days.step, days.focus)}
          </p>
          <p id="timeline-keys" className={days.step === null ? css.keys : 'for-reader'}>
            Drag over days to look closer. By keyboard: left and right day by day, + and − closer and back
            {outputs.length > 1 ? ', up and down the drain' : ''}
            {onDay ? ', Enter or a click: how the day was worked out' : ''}.
          </p>
        </>
      ) : (
        <DayTable page={page} picture={picture} />
      )}
    </section>
  )
}

/** What stands on the day that the keyboard is on; where there are several drains, the one that Enter means comes first. */
function liveText(picture: Picture, step: number, focus: number): string {
  const { outputs } = picture
  const chosen = outputs[focus]
  const ordered = chosen ? [chosen, ...outputs.filter((one) => one !== chosen)] : outputs
  return `${dayLines({ ...picture, outputs: ordered }, step).join('. ')}.`
}

/** One drain with its tube and its day; several by their number, since each strip has its own name. */
function Heading({ page, outputs }: { page: PatientPage; outputs: readonly Output[] }) {
  const { timeZone: zone } = page.record
  const [only] = outputs
  if (outputs.length !== 1 || !only) return <span>{outputs.length} outputs</span>
  const sizes = only.drains.flatMap((id) => page.labels[id]?.frenchSize ?? [])
  return (
    <span>
      {only.label}
      {only.drains.length === 1 && sizes[0] ? ` · ${sizes[0]} F` : ''} · since {fullDate(only.since)}, day{' '}
      {daysBetween(only.since, localDate(page.asOf, zone)) + 1}
    </span>
  )
}

type ChoiceProps<T> = {
  label: string
  all: readonly T[]
  chosen: T
  name: (one: T) => string
  onChoose: (one: T) => void
}

function Choice<T extends string | number>({ label, all, chosen, name, onChoose }: ChoiceProps<T>) {
  return (
    <fieldset className={css.choices} aria-label={label}>
      {all.map((one) => (
        <button
          key={one}
          type="button"
          data-quiet
          aria-pressed={chosen === one}
          onClick={() => onChoose(one)}
        >
          {name(one)}
        </button>
      ))}
    </fieldset>
  )
}
