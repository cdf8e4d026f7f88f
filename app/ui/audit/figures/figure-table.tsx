'use client'

import { Fragment, useId, useState } from 'react'
import { capital } from '@/lib/domain/capital.ts'
import { countText, intervalText, valueText } from '@/lib/domain/figure-text.ts'
import type { FigureName, Period, ShownFigure } from '@/lib/domain/figures.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { FigureDetail } from './figure-detail.tsx'
import css from './figures.module.css'

type Props = { title: string; figures: readonly ShownFigure[]; span: Period }

/** Figures under one question, one a row; each opens to its weeks, its parts and the patients behind it. */
export function FigureTable({ title, figures, span }: Props) {
  const [open, setOpen] = useState<readonly FigureName[]>([])
  const id = useId()
  if (figures.length === 0) return null
  const toggle = (name: FigureName) =>
    setOpen(open.includes(name) ? open.filter((one) => one !== name) : [...open, name])
  return (
    <section aria-labelledby={`${id}-title`} className={audit.part}>
      <h2 id={`${id}-title`}>{title}</h2>
      <Scroll label={`${title}, as a table`}>
        <table className={css.table}>
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col">Value</th>
              <th scope="col">95% interval</th>
              <th scope="col">Counted</th>
              <th scope="col">Weeks</th>
            </tr>
          </thead>
          <tbody>
            {figures.map((figure) => {
              const isOpen = open.includes(figure.name)
              const { name, label, unit, counts, doesNotSay, why, chart, weekly } = figure
              return (
                <Fragment key={name}>
                  <tr className={isOpen ? css.opened : undefined}>
                    <th scope="row">
                      <button
                        type="button"
                        className={css.name}
                        aria-expanded={isOpen}
                        aria-controls={`${id}-${name}`}
                        onClick={() => toggle(name)}
                      >
                        {label}
                      </button>
                      <span className={audit.quiet}>{doesNotSay}</span>
                    </th>
                    <td className={css.value}>
                      {valueText(figure, unit) ?? <span className={audit.quiet}>–</span>}
                    </td>
                    <td>{intervalText(figure, unit) ?? ''}</td>
                    <td>
                      {countText(figure)}
                      <span className={audit.quiet}>
                        {capital(counts.numerator)}, of {counts.denominator}. {why}
                      </span>
                    </td>
                    <td>
                      {chart.signals.length === 0 ? (
                        <span className={audit.quiet}>
                          {chart.centre !== null
                            ? 'no signal'
                            : weekly.length > 0
                              ? 'too few for a chart'
                              : ''}
                        </span>
                      ) : (
                        chart.signals.map((signal) => <span key={signal}>{signal} </span>)
                      )}
                    </td>
                  </tr>
                  <tr hidden={!isOpen}>
                    <td colSpan={5} id={`${id}-${name}`} className={css.detail}>
                      {isOpen ? <FigureDetail figure={figure} span={span} /> : null}
                    </td>
                  </tr>
                </Fragment>
              )
            })}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}
