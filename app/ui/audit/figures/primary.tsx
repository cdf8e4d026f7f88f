'use client'

import { useState } from 'react'
import { capital } from '@/lib/domain/capital.ts'
import { countText, intervalText, valueText } from '@/lib/domain/figure-text.ts'
import type { FiguresPage } from '@/lib/domain/figures.ts'
import { dayMonth, localDate } from '@/lib/domain/local-time.ts'
import audit from '../audit.module.css'
import { FigureDetail } from './figure-detail.tsx'
import css from './figures.module.css'
import { NameDialog } from './name-dialog.tsx'

/** The one figure that was named beforehand, in full; and the naming of another. */
export function Primary({ page }: { page: FiguresPage }) {
  const [isNaming, setNaming] = useState(false)
  const [said, setSaid] = useState('')
  const { primary, next, figures, clinic, from, until } = page
  const figure = figures.find(({ name }) => name === primary?.figure)
  const day = (at: string) => dayMonth(localDate(at, clinic.timeZone))
  const labelOf = (name: string | undefined) => figures.find((one) => one.name === name)?.label ?? ''
  return (
    <section aria-labelledby="primary-figure" className={css.primary}>
      <div className={css.line}>
        <h2 id="primary-figure">{figure ? figure.label : 'No figure was named beforehand'}</h2>
        <button type="button" onClick={() => setNaming(true)}>
          Name a figure
        </button>
      </div>
      {primary && figure ? (
        <>
          <p className={css.big}>
            {valueText(figure, figure.unit) ?? countText(figure)}{' '}
            <span className={audit.quiet}>
              {[intervalText(figure, figure.unit), figure.value === null ? null : countText(figure)]
                .filter(Boolean)
                .join(' · ')}
            </span>
          </p>
          <p className={audit.quiet}>
            {capital(figure.counts.numerator)}, of {figure.counts.denominator}. {figure.why}{' '}
            {figure.doesNotSay}
          </p>
          <p className={audit.quiet}>
            Named on {day(primary.at)} by {primary.by}, for the weeks from {dayMonth(primary.from)} on:{' '}
            {primary.why}
            {primary.from > from ? ' The weeks before it are shown and were not named for.' : ''}
          </p>
          {figure.chart.signals.map((signal) => (
            <p key={signal}>{signal}</p>
          ))}
          <details className={css.more}>
            <summary>Its weeks, parts and patients</summary>
            <FigureDetail figure={figure} span={{ from, until }} />
          </details>
        </>
      ) : (
        <p className={audit.quiet}>All figures of these weeks are descriptive.</p>
      )}
      {next ? (
        <p>
          For the weeks from {dayMonth(next.from)} on, {next.by} has named: {labelOf(next.figure)}.{' '}
          <span className={audit.quiet}>{next.why}</span>
        </p>
      ) : null}
      <p role="status">{said}</p>
      {isNaming ? (
        <NameDialog
          figures={figures}
          onClose={() => setNaming(false)}
          onDone={(week) => {
            setNaming(false)
            setSaid(`Named. It holds for the weeks from ${dayMonth(week)} on.`)
          }}
        />
      ) : null}
    </section>
  )
}
