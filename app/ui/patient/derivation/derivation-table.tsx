import type { DayDerivation, DerivedGap, DerivedStretch } from '@/lib/domain/day-derivation.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import css from './derivation.module.css'
import { gapLabels, hoursText, marksOf, mL } from './derivation-text.ts'

type Row = { from: string; stretch: DerivedStretch } | { from: string; gap: DerivedGap }

/** The stretches of a day and the part of each that falls in it, in order of time, what is not known between them. */
export function DerivationTable({ derivation }: { derivation: DayDerivation }) {
  const { stretches, gaps, day, timeZone } = derivation
  const rows: Row[] = [
    ...stretches
      .filter(({ netMl }) => netMl !== null)
      .map((stretch) => ({ from: stretch.inDay.from, stretch })),
    ...gaps.map((gap) => ({ from: gap.from, gap })),
  ].toSorted((a, b) => Date.parse(a.from) - Date.parse(b.from))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className={css.scroll} tabIndex={0} aria-label="The sum">
      <table className={css.table}>
        <thead>
          <tr>
            <th scope="col">From one emptying to the next</th>
            <th scope="col">Hours</th>
            <th scope="col">Emptied, mL</th>
            <th scope="col">Flushed, mL</th>
            <th scope="col">Net, mL</th>
            <th scope="col">Hours of it in this day</th>
            <th scope="col">Net of it in this day, mL</th>
          </tr>
        </thead>
        {rows.map((row) => (
          <tbody key={row.from}>
            {'gap' in row ? (
              <GapRow gap={row.gap} zone={timeZone} />
            ) : (
              <StretchRows stretch={row.stretch} zone={timeZone} />
            )}
          </tbody>
        ))}
        <tfoot>
          <tr>
            <th scope="row" colSpan={5}>
              Sum of the day
            </th>
            <td>{hoursText(day.coverage * day.hours)}</td>
            <td>{day.netMl === null ? 'unknown' : `${day.atLeast ? 'at least ' : ''}${mL(day.netMl)}`}</td>
          </tr>
        </tfoot>
      </table>
    </section>
  )
}

const span = (from: string, to: string, zone: string) =>
  `${dayAndTime(from, zone)} to ${dayAndTime(to, zone)}`

function StretchRows({ stretch, zone }: { stretch: DerivedStretch; zone: string }) {
  const { from, to, hours, volumeMl, flushedMl, netMl, inDay } = stretch
  const marks = marksOf(stretch)
  return (
    <>
      <tr className={marks.length > 0 ? css.unmarked : undefined}>
        <th scope="row">{span(from, to, zone)}</th>
        <td>{hoursText(hours)}</td>
        <td>{volumeMl === null ? '' : mL(volumeMl)}</td>
        <td>{flushedMl === 0 ? '0' : `−${mL(flushedMl)}`}</td>
        <td>{netMl === null ? '' : mL(netMl)}</td>
        <td>{hoursText(inDay.hours)}</td>
        <td>{inDay.netMl === null ? '' : mL(inDay.netMl)}</td>
      </tr>
      {marks.length > 0 ? (
        <tr>
          <td colSpan={7} className={css.marks}>
            {marks.join(' ')}
          </td>
        </tr>
      ) : null}
    </>
  )
}

function GapRow({ gap: { from, to, hours, why }, zone }: { gap: DerivedGap; zone: string }) {
  return (
    <tr className={css.unknown}>
      <th scope="row" colSpan={5}>
        {span(from, to, zone)}: {gapLabels[why]}
      </th>
      <td>{hoursText(hours)}</td>
      <td>unknown</td>
    </tr>
  )
}
