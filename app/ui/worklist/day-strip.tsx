'use client'

import { type KeyboardEvent, useState } from 'react'
import type { Instant } from '@/lib/domain/instant.ts'
import { urgencyLabels } from '@/lib/domain/labels.ts'
import { duration, when } from '@/lib/domain/local-time.ts'
import { urgencyRank } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import css from './day-strip.module.css'
import { type StripMark, stripOf } from './strip.ts'

const HEIGHT = 62
const fills = ['', css.one, css.two, css.three, css.four]
const heightOf = (rank: number) => 10 + rank * 8
const percent = (share: number) => `${(share * 100).toFixed(3)}%`

type Props = {
  rows: readonly WorklistRow[]
  now: number
  zone: string
  /** The row that has the focus, or is pointed at: its mark is marked. */
  current: string | null
  onPoint: (patientId: string | null) => void
  /** Brings a row into sight; `enter` also gives it the focus. */
  onGo: (patientId: string, enter: boolean) => void
}

/**
 * The load of the next twelve hours, before the first row is read. Each mark leads to its row: pointing at it
 * shows the row where it is in sight, the focus brings it into sight, a press goes there. One mark at a time is
 * in the order of Tab; arrows go from mark to mark.
 */
export function DayStrip({ rows, now, zone, current, onPoint, onGo }: Props) {
  const { overdue, later, marks, hours } = stripOf(rows, now, zone)
  const [at, setAt] = useState(0)
  const entry = Math.min(at, marks.length - 1)
  const time = (instant: Instant) => when(instant, now, zone)

  const step = (event: KeyboardEvent<SVGElement>, i: number, mark: StripMark) => {
    const to = { ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: marks.length - 1 }[event.key]
    if (event.key === 'Enter' || event.key === ' ') onGo(mark.patientId, true)
    else if (to === undefined || to < 0 || to >= marks.length) return
    else {
      setAt(to)
      const all = event.currentTarget.ownerSVGElement?.querySelectorAll<SVGElement>('[data-mark]')
      all?.[to]?.focus()
    }
    event.preventDefault()
  }

  return (
    <section className={css.strip} aria-label="Deadlines of the next twelve hours">
      <button
        type="button"
        className={css.end}
        onClick={() => overdue.firstId && onGo(overdue.firstId, true)}
        aria-disabled={overdue.count === 0}
      >
        <span>Overdue</span> <b className={overdue.count > 0 ? css.over : undefined}>{overdue.count}</b>{' '}
        <span>{overdue.count > 0 ? `oldest by ${duration(overdue.oldestMs)}` : 'none'}</span>
      </button>
      {/* biome-ignore lint/a11y/useSemanticElements: a group of marks within a drawing has no element of its own */}
      <svg className={css.hours} width="100%" height={90} role="group" aria-label={`${marks.length} marks`}>
        {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: lines and hours take no focus */}
        <g aria-hidden="true">
          {hours.map(({ share, text }, i) => (
            <g key={text} className={i % 6 === 0 ? undefined : i % 3 === 0 ? css.third : css.between}>
              <line x1={percent(share)} x2={percent(share)} y1={0} y2={HEIGHT + 6} className={css.hour} />
              <text x={percent(share)} y={HEIGHT + 22} textAnchor={share < 0.02 ? 'start' : 'middle'}>
                {text}
              </text>
            </g>
          ))}
        </g>
        {marks.map((mark, i) => {
          const { patientId, share, lane, urgency, count, name } = mark
          const rank = urgencyRank[urgency]
          const more = count > 1 ? ` and ${count - 1} more within ten minutes` : ''
          return (
            // biome-ignore lint/a11y/useSemanticElements: a button cannot stand within a drawing
            <g
              key={patientId}
              role="button"
              tabIndex={i === entry ? 0 : -1}
              data-mark={patientId}
              data-current={patientId === current || undefined}
              className={css.mark}
              aria-label={`${time(mark.at)} ${name}, ${urgencyLabels[urgency].toLowerCase()}${more}`}
              onClick={() => onGo(patientId, true)}
              onFocus={() => {
                setAt(i)
                onPoint(patientId)
                onGo(patientId, false)
              }}
              onBlur={() => onPoint(null)}
              onPointerEnter={() => onPoint(patientId)}
              onPointerLeave={() => onPoint(null)}
              onKeyDown={(event) => step(event, i, mark)}
              transform={`translate(${lane * 8 - 3} 0)`}
            >
              <title>{`${time(mark.at)} ${name}${more}`}</title>
              <rect
                x={percent(share)}
                y={HEIGHT - heightOf(rank)}
                width={6}
                height={heightOf(rank)}
                rx={1}
                className={fills[rank]}
              />
            </g>
          )
        })}
      </svg>
      <button
        type="button"
        className={css.end}
        onClick={() => later.firstId && onGo(later.firstId, true)}
        aria-disabled={later.count === 0}
      >
        <span>Later</span> <b>{later.count}</b>{' '}
        <span>{later.next ? `next ${time(later.next)}` : 'none'}</span>
      </button>
    </section>
  )
}
