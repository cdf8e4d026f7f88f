import Link from 'next/link'
import { capital } from '@/lib/domain/capital.ts'
import { thresholdLabels, vesselLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { OrdersVersion, PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain } from '@/lib/domain/record.ts'
import css from './patient.module.css'
import { isOpenVisit, visitWhat } from './visit-text.ts'

type Props = {
  page: PatientPage
  now: number
  canAdd: boolean
  onCorrect: ((drain: Drain) => void) | null
}

/** What is ordered of each drain, its own thresholds with who set them and why, and its visits. */
export function OrdersList({ page, now, canAdd, onCorrect }: Props) {
  return (
    <section aria-labelledby="orders" className={css.section}>
      <h2 id="orders">Orders and visits</h2>
      <ul className={css.list}>
        {page.record.drains.map((drain) => (
          <li key={drain.id}>
            <DrainOrders drain={drain} page={page} now={now} onCorrect={onCorrect} />
          </li>
        ))}
      </ul>
      {canAdd ? (
        <Link className="button" href={`/patients/${page.patient.id}/new-drain`} prefetch={false}>
          Add a drain
        </Link>
      ) : null}
    </section>
  )
}

function DrainOrders({ drain, page, now, onCorrect }: Omit<Props, 'canAdd'> & { drain: Drain }) {
  const zone = page.clinic.timeZone
  const [current, ...earlier] = page.orders[drain.id] ?? []
  const visits = page.visits.filter((visit) => visit.drain === drain.id)
  const taken = page.withdrawnOrders.filter((version) => version.drain === drain.id)
  const over = visits.filter((visit) => !isOpenVisit(visit))
  return (
    <article>
      <h3>
        {capital(page.labels[drain.id]?.label ?? drain.id)}
        {onCorrect ? (
          <button type="button" data-quiet className={css.inline} onClick={() => onCorrect(drain)}>
            Correct<span className="for-reader"> what this drain was enrolled as</span>
          </button>
        ) : null}
      </h3>
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
      {earlier.length + taken.length + over.length > 0 ? (
        <details className={css.more}>
          <summary>Earlier orders and visits</summary>
          <ol>
            {[current, ...earlier].map((version) =>
              version ? <li key={version.version}>{versionText(version, zone)}</li> : null,
            )}
            {taken.map((version) => (
              <li key={version.version}>
                <del className={css.struck}>{versionText(version, zone)}</del> Taken back{' '}
                {dayAndTime(version.withdrawnAt, zone)} by {version.withdrawnBy}.
              </li>
            ))}
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

/** @example 'Version 2, Tue 24 Nov, 09:05, R. Okafor: stiff flushes. Flush 10 mL every 12 h (was none).' */
function versionText({ version, validFrom, by, why, changes }: OrdersVersion, zone: string): string {
  const reason = (why ?? 'no reason noted').replace(/\.$/, '')
  const changed = changes.length > 0 ? ` ${capital(changes.join('; '))}.` : ''
  return `Version ${version}, ${dayAndTime(validFrom, zone)}, ${by}: ${reason}.${changed}`
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
