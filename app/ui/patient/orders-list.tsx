import { capital } from '@/lib/domain/capital.ts'
import { thresholdLabels, vesselLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { OrdersVersion, PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain } from '@/lib/domain/record.ts'
import css from './patient.module.css'
import { isOpenVisit, visitWhat } from './visit-text.ts'

/** What is ordered of each drain, its own thresholds with who set them and why, and its visits. */
export function OrdersList({ page, now }: { page: PatientPage; now: number }) {
  return (
    <section aria-labelledby="orders" className={css.section}>
      <h2 id="orders">Orders and visits</h2>
      <ul className={css.list}>
        {page.record.drains.map((drain) => (
          <li key={drain.id}>
            <DrainOrders drain={drain} page={page} now={now} />
          </li>
        ))}
      </ul>
    </section>
  )
}

function DrainOrders({ drain, page, now }: { drain: Drain; page: PatientPage; now: number }) {
  const zone = page.clinic.timeZone
  const [current, ...earlier] = page.orders[drain.id] ?? []
  const visits = page.visits.filter((visit) => visit.drain === drain.id)
  const over = visits.filter((visit) => !isOpenVisit(visit))
  return (
    <article>
      <h3>{capital(page.labels[drain.id]?.label ?? drain.id)}</h3>
      {visits.filter(isOpenVisit).map((visit) => (
        <p key={visit.id}>
          <b>{capital(visitWhat(visit, page, now))}</b>
        </p>
      ))}
      <p>{[...orderLines(drain, page), ...(current ? detailLines(current) : [])].join('; ')}.</p>
      {current?.overrides.map(({ name, value, by, at, why }) => (
        <p key={name}>
          {thresholdLabels[name]}: <b>{value}</b>{' '}
          <span className={css.quiet}>
            (this drain’s own, {by}, {dayAndTime(at, zone)}: {why})
          </span>
        </p>
      ))}
      {earlier.length + over.length > 0 ? (
        <details className={css.more}>
          <summary>Earlier orders and visits</summary>
          <ol>
            {[current, ...earlier].map((version) =>
              version ? (
                <li key={version.version}>
                  Version {version.version}, {dayAndTime(version.validFrom, zone)}:{' '}
                  {version.why ?? 'no reason noted'}
                </li>
              ) : null,
            )}
            {over.map((visit) => (
              <li key={visit.id}>
                {capital(visitWhat(visit, page, now))}, {dayAndTime(visit.changedAt, zone)}, {visit.changedBy}
                {visit.why ? `: ${visit.why}` : ''}
              </li>
            ))}
          </ol>
        </details>
      ) : null}
    </article>
  )
}

function orderLines({ id, plan, bagCapacityMl, markMl }: Drain, { labels }: PatientPage): string[] {
  const mark = labels[id]?.lengthMarkCm
  return [
    `Log every ${plan.logEveryHours} h`,
    `dressing every ${plan.dressingEveryHours} h`,
    plan.flush ? `flush ${plan.flush.volumeMl} mL every ${plan.flush.everyHours} h` : 'no flush',
    plan.exchangeEveryDays ? `exchange every ${plan.exchangeEveryDays} days` : null,
    bagCapacityMl ? `holds ${bagCapacityMl} mL` : null,
    markMl ? `marks of ${markMl} mL` : null,
    mark == null ? null : `${mark} cm at the skin`,
  ].filter((line) => line !== null)
}

function detailLines({ vessel, flushAt, dressingType, removalPlan }: OrdersVersion): string[] {
  return [
    vessel ? `collected in a ${vesselLabels[vessel].toLowerCase()}` : null,
    flushAt && flushAt.length > 0 ? `flush at ${flushAt.join(', ')}` : null,
    dressingType ? `dressing: ${dressingType}` : null,
    removalPlan ? `removal plan: ${removalPlan}` : null,
  ].filter((line) => line !== null)
}
