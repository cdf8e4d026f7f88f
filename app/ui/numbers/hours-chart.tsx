import type { HourNumbers } from '@/lib/domain/numbers.ts'
import { BOTTOM, HEIGHT, LEFT, pictureOf, SERIES, seriesLabels, WIDTH } from './chart.ts'
import css from './numbers.module.css'

/** The day hour by hour as bars. The table beside it says the same in numbers. */
export function HoursChart({ hours }: { hours: readonly HourNumbers[] }) {
  const { bars, ticks, labels, aheadX } = pictureOf(hours)
  return (
    <figure className={css.figure}>
      <figcaption className={css.legend}>
        {SERIES.map((series) => (
          <span key={series}>
            <svg width={12} height={12} aria-hidden="true" focusable="false">
              <rect x={0.5} y={0.5} width={11} height={11} className={css[series]} />
            </svg>{' '}
            {seriesLabels[series]}
          </span>
        ))}
      </figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        className={css.chart}
        role="img"
        aria-label="Rows opened, attempts and reached, by hour of today. The table below says the same in numbers."
      >
        {aheadX === null ? null : (
          <>
            <rect x={aheadX} y={0} width={WIDTH - aheadX} height={HEIGHT - BOTTOM} className={css.ahead} />
            {aheadX < WIDTH - 80 ? (
              <text x={aheadX + 8} y={16} className={css.axis}>
                still to come
              </text>
            ) : null}
          </>
        )}
        {ticks.map(({ value, y }) => (
          <g key={value}>
            <line x1={LEFT} x2={WIDTH} y1={y} y2={y} className={css.line} />
            <text x={LEFT - 6} y={y + 4} textAnchor="end" className={css.axis}>
              {value}
            </text>
          </g>
        ))}
        {bars.map(({ key, series, ...box }) => (
          <rect key={key} {...box} className={css[series]} />
        ))}
        {labels.map(({ key, text, x }) => (
          <text key={key} x={x} y={HEIGHT - 8} textAnchor="middle" className={css.axis}>
            {text}
          </text>
        ))}
      </svg>
    </figure>
  )
}
