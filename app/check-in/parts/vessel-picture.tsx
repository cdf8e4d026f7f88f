import { type KeyboardEvent, type MouseEvent, useId } from 'react'
import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import { writtenNumber } from '../answers/numbers.ts'
import { useSay } from '../words/say.tsx'
import { BOTTOM, heightOf, markAt, outlines, scaleOf, upTo, vesselOf } from './vessel-shape.ts'

const WIDTH = 160
const HEIGHT = 222
/** Where each outline begins, so that no picture has an empty top. */
const begins = { bag: 24, bulb: 6, bottle: 4, cup: 22 }
/** Where the marks end and their numbers begin. */
const EDGE = 100

type Props = { drain: CheckInDrain; ml: number | null; onPick: (volume: string) => void }

/**
 * The vessel with its marks and the fluid at the number that was written. A tap on a mark writes its number;
 * the number stays what counts. Nothing is drawn where nobody has said how much the vessel holds.
 */
export function VesselPicture({ drain, ml, onPick }: Props) {
  const say = useSay()
  const clip = useId()
  const capacity = drain.bagCapacityMl
  if (capacity === null) return null
  const vessel = vesselOf(drain)
  const { step, labels } = scaleOf(capacity, drain.markMl)
  const top = begins[vessel]
  const level = ml ?? 0
  const pick = (value: number) => onPick(writtenNumber(Math.min(capacity, Math.max(0, value))))

  const byTap = (event: MouseEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect()
    pick(markAt(top + ((event.clientY - box.top) / box.height) * (HEIGHT - top), capacity, step))
  }
  const byKey = (event: KeyboardEvent) => {
    const next = {
      ArrowUp: level + step,
      ArrowRight: level + step,
      ArrowDown: level - step,
      ArrowLeft: level - step,
      PageUp: level + (labels[0] ?? step),
      PageDown: level - (labels[0] ?? step),
      Home: 0,
      End: capacity,
    }[event.key]
    if (next === undefined) return
    event.preventDefault()
    pick(next)
  }
  const text =
    ml === null
      ? say('picture.empty')
      : ml > capacity
        ? say('picture.more', { ml })
        : say('milliliters', { ml })
  return (
    <figure className="vessel">
      <figcaption>
        {say(`picture.${vessel}`)}. {say('picture.hint')}
      </figcaption>
      <div
        role="slider"
        tabIndex={0}
        aria-label={say(`picture.${vessel}`)}
        aria-orientation="vertical"
        aria-valuemin={0}
        aria-valuemax={capacity}
        aria-valuenow={Math.min(level, capacity)}
        aria-valuetext={text}
        onClick={byTap}
        onKeyDown={byKey}
      >
        <svg
          viewBox={`0 ${top} ${WIDTH} ${HEIGHT - top}`}
          aria-hidden="true"
          focusable="false"
          direction="ltr"
        >
          <clipPath id={clip}>
            <path d={outlines[vessel]} />
          </clipPath>
          <path className="inside" d={outlines[vessel]} />
          <rect
            className="fluid"
            clipPath={`url(#${clip})`}
            x="0"
            y={heightOf(level, capacity)}
            width={EDGE}
            height={level > 0 ? HEIGHT - heightOf(level, capacity) : 0}
          />
          <path className="wall" d={outlines[vessel]} />
          {upTo(capacity, step).map((mark) => (
            <path key={mark} className="mark" d={`M${EDGE - 8} ${heightOf(mark, capacity)} h8`} />
          ))}
          <path className="mark" d={`M${EDGE - 8} ${BOTTOM} h8`} />
          {labels.map((mark) => (
            <g key={mark}>
              <path className="mark long" d={`M${EDGE - 20} ${heightOf(mark, capacity)} h20`} />
              <text x={EDGE + 6} y={heightOf(mark, capacity) + 5}>
                {mark}
              </text>
            </g>
          ))}
        </svg>
      </div>
    </figure>
  )
}
