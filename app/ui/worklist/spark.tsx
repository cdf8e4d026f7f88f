import { useId } from 'react'
import type { RowDrain } from '@/lib/domain/worklist.ts'
import { PICTURE, pictureOf, pictureText } from './picture.ts'
import css from './spark.module.css'

const classes = { before: css.before, last: css.last, partial: css.partial } as const

/** The last 14 days of one drain's net output, small. */
export function Spark({ drain, completeFrom }: { drain: RowDrain; completeFrom: number }) {
  const hatch = useId()
  const { bars, unknown, band, zero } = pictureOf(drain.days, drain.baselineMlPerDay, completeFrom)
  return (
    <svg
      className={css.spark}
      width={PICTURE.width}
      height={PICTURE.height + 2}
      viewBox={`0 0 ${PICTURE.width} ${PICTURE.height + 2}`}
      role="img"
      aria-label={pictureText(drain.label, drain.days, drain.baselineMlPerDay, completeFrom)}
    >
      <pattern id={hatch} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect width="2" height="4" className={css.stripe} />
      </pattern>
      {band ? (
        <rect x={0} y={band.y} width={PICTURE.width} height={band.height} className={css.band} />
      ) : null}
      <line x1={0} x2={PICTURE.width} y1={zero} y2={zero} className={css.zero} />
      {bars.map(({ x, y, width, height, kind }) => (
        <rect
          key={x}
          x={x}
          y={y}
          width={width}
          height={height}
          className={classes[kind]}
          fill={kind === 'partial' ? `url(#${hatch})` : undefined}
        />
      ))}
      {unknown.map((x) => (
        <line key={x} x1={x} x2={x} y1={zero} y2={zero - 9} className={css.unknown} />
      ))}
    </svg>
  )
}
