import type { HandOutDrain } from '@/lib/domain/hand-out.ts'
import type { HandOutText } from '@/lib/domain/texts/hand-out.ts'
import css from './hand-out.module.css'
import { placesOf } from './places.ts'

/** One half of the body, seen from the front; the other is its mirror. */
const HALF =
  'M91 42V50C88 56 70 56 62 63C54 70 53 84 51 100L44 146C43 154 50 156 53 149L64 106L70 86' +
  'M70 86C74 104 75 116 73 128C71 140 66 150 66 164L70 214M100 180C98 190 97 202 96 214'

/** Where each drain is, roughly: an aid beside the words, which lead. The reader's left is on the right of the picture. */
export function BodyPicture({ drains, text }: { drains: readonly HandOutDrain[]; text: HandOutText }) {
  const places = placesOf(drains)
  return (
    <svg className={css.picture} viewBox="0 0 200 216" role="img" aria-label={text.picture}>
      <text x="42" y="14" textAnchor="middle" className={css.side}>
        {text.yourRight}
      </text>
      <text x="158" y="14" textAnchor="middle" className={css.side}>
        {text.yourLeft}
      </text>
      <g className={css.line}>
        <ellipse cx="100" cy="25" rx="14" ry="18" />
        <path d={HALF} />
        <path d={HALF} transform="matrix(-1 0 0 1 200 0)" />
        <path d="M97 142h6" />
      </g>
      {places.map(({ id, site, vessel, isBulb, number }) => (
        <g key={id}>
          <path className={css.halo} d={tubePath(site, vessel)} />
          <path className={css.tube} d={tubePath(site, vessel)} />
          <circle className={css.site} cx={site.x} cy={site.y} r="4.5" />
          {isBulb ? (
            <circle className={css.vessel} cx={vessel.x} cy={vessel.y} r="14" />
          ) : (
            <rect className={css.vessel} x={vessel.x - 12} y={vessel.y - 14} width="24" height="28" rx="4" />
          )}
          <text x={vessel.x} y={vessel.y + 6} textAnchor="middle" className={css.number}>
            {number}
          </text>
        </g>
      ))}
    </svg>
  )
}

/** From the body in a bow to the middle of the vessel, which covers its end. */
function tubePath(site: { x: number; y: number }, vessel: { x: number; y: number }): string {
  const half = (site.x + vessel.x) / 2
  return `M${site.x} ${site.y}C${half} ${site.y} ${half} ${vessel.y} ${vessel.x} ${vessel.y}`
}
