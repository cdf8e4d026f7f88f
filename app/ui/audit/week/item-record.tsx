import { capital } from '@/lib/domain/capital.ts'
import { isComplete } from '@/lib/domain/day-limit.ts'
import { kindLabels } from '@/lib/domain/labels.ts'
import { dayAndTime, daysBetween, localDate, weekday } from '@/lib/domain/local-time.ts'
import { DAYS_AFTER, type ItemPage, type Told } from '@/lib/domain/week-page.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import css from './week.module.css'

/** The record of an item: as it was known then, and what became known in the days after. */
export function ItemRecord({ item }: { item: ItemPage }) {
  const { patient, at, drains, known, after, afterIsWhole } = item
  const zone = patient.timeZone
  return (
    <div className={css.record}>
      <section aria-labelledby="known" className={audit.part}>
        <h2 id="known">As it was known {dayAndTime(at, zone)}</h2>
        <ul className={css.drains}>
          {drains.map(({ id, label, kind, placedAt, isRemoved, isCapped, usualMlPerDay, orders }) => (
            <li key={id}>
              <b>{capital(label)}</b>, {kindLabels[kind].toLowerCase()}, day{' '}
              {daysBetween(localDate(placedAt, zone), localDate(at, zone))}
              {isRemoved ? ', removed' : isCapped ? ', capped' : ''};{' '}
              {usualMlPerDay === null ? 'usual not known yet' : `usual ${Math.round(usualMlPerDay)} mL/day`};{' '}
              {orders}
            </li>
          ))}
        </ul>
        <ToldPart told={known} item={item} caption="Net output by day, mL, the 14 days before" />
      </section>
      <section aria-labelledby="after" className={audit.part}>
        <h2 id="after">What became known in the {DAYS_AFTER} days after</h2>
        {afterIsWhole ? null : (
          <p className={audit.quiet}>
            They are not over: this is what was known {dayAndTime(after.until, zone)}.
          </p>
        )}
        <ToldPart told={after} item={item} caption="Net output by day, mL, from that day on" />
      </section>
      <p className={audit.quiet}>
        Times are the patient’s ({zone}). A dash: nothing is known of that day, which is not zero. ~: part of
        the day.
      </p>
    </div>
  )
}

function ToldPart({ told, item, caption }: { told: Told; item: ItemPage; caption: string }) {
  const zone = item.patient.timeZone
  return (
    <>
      <DaysTable told={told} item={item} caption={caption} />
      {told.events.length > 0 ? (
        <ul className={css.lines}>
          {told.events.map(({ at, says }) => (
            <li key={`${at} ${says}`}>
              {dayAndTime(at, zone)}: <b>{says}</b>
            </li>
          ))}
        </ul>
      ) : null}
      {told.reports.length === 0 ? (
        <p className={audit.quiet}>Nothing was reported.</p>
      ) : (
        <ul className={css.lines}>
          {told.reports.toReversed().map(({ receivedAt, lines, words }, i) => (
            // Two reports can come in at one moment; the list of an item does not change.
            <li key={i}>
              <span className={audit.quiet}>{dayAndTime(receivedAt, zone)}</span> {lines.join(' · ')}
              {words ? <q className={css.words}>{words}</q> : null}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

function DaysTable({ told, item, caption }: { told: Told; item: ItemPage; caption: string }) {
  const [first] = told.days
  if (!first || first.days.length === 0) return null
  const labelOf = (id: string) => item.drains.find((drain) => drain.id === id)?.label ?? id
  return (
    <Scroll label={caption}>
      <table className={css.days}>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Drain</th>
            {first.days.map(({ date }) => (
              <th key={date} scope="col">
                {weekday(date)}
                <br />
                {Number(date.slice(8))}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {told.days.map(({ drain, days }) => (
            <tr key={drain}>
              <th scope="row">{labelOf(drain)}</th>
              {days.map(({ date, netMl, coverage }) => (
                <td key={date}>
                  {netMl === null ? '–' : `${isComplete(coverage, item) ? '' : '~'}${Math.round(netMl)}`}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
