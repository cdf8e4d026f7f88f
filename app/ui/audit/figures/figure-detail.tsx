import { countText, intervalText, valueText, weekText } from '@/lib/domain/figure-text.ts'
import type { Period, ShownFigure } from '@/lib/domain/figures.ts'
import { dayMonth } from '@/lib/domain/local-time.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import css from './figures.module.css'
import { PatientsList } from './patients-list.tsx'
import { WeekChart } from './week-chart.tsx'

/** All that stands behind a figure: its weeks as a chart and in numbers, its parts, what belongs beside it, the patients. */
export function FigureDetail({ figure, span }: { figure: ShownFigure; span: Period }) {
  const { weekly, beside, published, method, parts } = figure
  return (
    <div className={css.inside}>
      <div className={css.tables}>
        {weekly.some(({ value }) => value !== null) ? <WeekChart figure={figure} /> : null}
        {weekly.length > 0 ? <WeekTable figure={figure} /> : null}
        {beside.length + published.length > 0 ? (
          <dl className={css.beside}>
            {beside.map(({ label, text }) => (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{text}</dd>
              </div>
            ))}
            {published.map(({ text, source, confidence }) => (
              <div key={text}>
                <dt>Published elsewhere</dt>
                <dd>
                  {text}{' '}
                  <span className={audit.quiet}>
                    {source}; {confidence}
                  </span>
                </dd>
              </div>
            ))}
          </dl>
        ) : null}
      </div>
      {parts.length > 0 ? <PartsTable figure={figure} /> : null}
      <p className={audit.quiet}>{method}</p>
      <PatientsList figure={figure} span={span} />
    </div>
  )
}

function WeekTable({ figure: { label, weekly, unit, chart } }: { figure: ShownFigure }) {
  const hasLimits = chart.kind === 'u-chart'
  return (
    <Scroll label={`${label}, week by week`}>
      <table className={css.small}>
        <caption className="for-reader">{label}, week by week</caption>
        <thead>
          <tr>
            <th scope="col">Week of</th>
            <th scope="col">Counted</th>
            <th scope="col">Value</th>
            {hasLimits ? <th scope="col">Limits</th> : null}
          </tr>
        </thead>
        <tbody>
          {weekly.map((week) => (
            <tr key={week.week}>
              <th scope="row">{dayMonth(week.week)}</th>
              <td>{countText(week)}</td>
              <td>{weekText(week, unit)}</td>
              {hasLimits ? <td>{intervalText({ low: week.lower, high: week.upper }, unit) ?? ''}</td> : null}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

function PartsTable({ figure: { label, parts, unit } }: { figure: ShownFigure }) {
  const hasPublished = parts.some(({ published }) => published.length > 0)
  return (
    <Scroll label={`${label}, by part`}>
      <table className={css.small}>
        <caption className="for-reader">{label}, by part</caption>
        <thead>
          <tr>
            <th scope="col">Of these</th>
            <th scope="col">Counted</th>
            <th scope="col">Value</th>
            <th scope="col">95% interval</th>
            {hasPublished ? <th scope="col">Published elsewhere</th> : null}
          </tr>
        </thead>
        <tbody>
          {parts.map((part) => (
            <tr key={part.key}>
              <th scope="row">{part.label}</th>
              <td>{countText(part)}</td>
              <td>{valueText(part, unit) ?? ''}</td>
              <td>{intervalText(part, unit) ?? ''}</td>
              {hasPublished ? (
                <td className={css.published}>
                  {part.published.map(({ text, source, confidence }) => (
                    <p key={text}>
                      {text}{' '}
                      <span className={audit.quiet}>
                        {source}; {confidence}
                      </span>
                    </p>
                  ))}
                </td>
              ) : null}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
