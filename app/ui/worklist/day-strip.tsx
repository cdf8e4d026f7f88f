import type { Instant } from '@/lib/domain/instant.ts'
import { urgencyLabels } from '@/lib/domain/labels.ts'
import { duration, when } from '@/lib/domain/local-time.ts'
import { urgencyRank } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import css from './day-strip.module.css'
import { type Strip, stripOf } from './strip.ts'

const HEIGHT = 62
const fills = ['', css.one, css.two, css.three, css.four]
const heightOf = (rank: number) => 10 + rank * 8
const percent = (share: number) => `${(share * 100).toFixed(3)}%`

/** The load of the next twelve hours, before the first row is read. */
export function DayStrip({ rows, now, zone }: { rows: readonly WorklistRow[]; now: number; zone: string }) {
  const strip = stripOf(rows, now, zone)
  return (
    <figure className={css.strip}>
      <figcaption className="for-reader">{inWords(strip, now, zone)}</figcaption>
      <div className={css.end} aria-hidden="true">
        <span>Overdue</span>
        <b className={strip.overdue.count > 0 ? css.over : undefined}>{strip.overdue.count}</b>
        <span>{strip.overdue.count > 0 ? `oldest by ${duration(strip.overdue.oldestMs)}` : 'none'}</span>
      </div>
      <svg className={css.hours} width="100%" height={90} aria-hidden="true">
        {strip.hours.map(({ share, text }, i) => (
          <g key={text} className={i % 6 === 0 ? undefined : i % 3 === 0 ? css.third : css.between}>
            <line x1={percent(share)} x2={percent(share)} y1={0} y2={HEIGHT + 6} className={css.hour} />
            <text x={percent(share)} y={HEIGHT + 22} textAnchor={share < 0.02 ? 'start' : 'middle'}>
              {text}
            </text>
          </g>
        ))}
        {strip.marks.map(({ patientId, share, lane, urgency }) => {
          const rank = urgencyRank[urgency]
          return (
            <rect
              key={patientId}
              x={percent(share)}
              y={HEIGHT - heightOf(rank)}
              width={6}
              height={heightOf(rank)}
              rx={1}
              transform={`translate(${lane * 8 - 3} 0)`}
              className={fills[rank]}
            />
          )
        })}
      </svg>
      <div className={css.end} aria-hidden="true">
        <span>Later</span>
        <b>{strip.later.count}</b>
        <span>{strip.later.next ? `next ${when(strip.later.next, now, zone)}` : 'none'}</span>
      </div>
    </figure>
  )
}

function inWords({ overdue, later, marks }: Strip, now: number, zone: string): string {
  const time = (at: Instant) => when(at, now, zone)
  const past =
    overdue.count > 0
      ? `${overdue.count} overdue, the oldest by ${duration(overdue.oldestMs)}.`
      : 'None overdue.'
  const ahead = marks
    .map(({ name, at, urgency }) => `${time(at)} ${name}, ${urgencyLabels[urgency].toLowerCase()}`)
    .join('; ')
  const after = later.next ? `${later.count} later, the next ${time(later.next)}.` : 'None later.'
  return `${past} To act on in the next twelve hours: ${ahead || 'none'}. ${after}`
}
