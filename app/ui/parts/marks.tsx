import { type Urgency, urgencyRank } from '@/lib/domain/words.ts'
import css from './marks.module.css'

const SLOTS = [1, 2, 3, 4] as const
const fills = { 1: css.one, 2: css.two, 3: css.three, 4: css.four } as const

/** The count of outlined marks of an urgency: more marks, sooner. Its words stand beside it. */
export function Marks({ urgency, large = false }: { urgency: Urgency; large?: boolean }) {
  const rank = urgencyRank[urgency]
  const size = large ? 16 : 13
  return (
    <svg
      className={css.marks}
      width={26}
      height={size}
      viewBox={`0 0 26 ${size}`}
      aria-hidden="true"
      focusable="false"
    >
      {SLOTS.map((slot) => (
        <rect
          key={slot}
          x={(slot - 1) * 7 + 0.5}
          y={0.5}
          width={4}
          height={size - 1}
          rx={1}
          className={slot <= rank ? fills[Math.max(1, rank) as 1 | 2 | 3 | 4] : css.empty}
        />
      ))}
    </svg>
  )
}
