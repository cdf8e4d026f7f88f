import type { Instant } from '@/lib/domain/instant.ts'
import { vesselLabels } from '@/lib/domain/labels.ts'
import { when } from '@/lib/domain/local-time.ts'
import type { KindTemplate, OrderTemplate } from '@/lib/domain/order-template.ts'
import css from './templates.module.css'

/** Orders in one line. */
export function ordersText(orders: OrderTemplate): string {
  const { flush, flushAt, exchangeEveryDays, vessel, bagCapacityMl, markMl, dressingType, removalPlan } =
    orders
  return [
    `log every ${orders.logEveryHours} h`,
    flush
      ? `flush ${flush.volumeMl} mL every ${flush.everyHours} h${flushAt ? ` at ${flushAt.join(', ')}` : ''}`
      : 'no flush',
    `dressing every ${orders.dressingEveryHours} h${dressingType ? ` (${dressingType})` : ''}`,
    exchangeEveryDays ? `exchange every ${exchangeEveryDays} days` : 'no exchange',
    vessel || bagCapacityMl
      ? `${vessel ? vesselLabels[vessel].toLowerCase() : 'vessel'}${bagCapacityMl ? ` of ${bagCapacityMl} mL` : ''}${markMl ? `, marks of ${markMl} mL` : ''}`
      : '',
    removalPlan ? `removal: ${removalPlan}` : '',
  ]
    .filter(Boolean)
    .join('; ')
}

/** Every version of a kind's usual orders, the newest first: who set it, and when. */
export function Versions({ template, asOf, zone }: { template: KindTemplate; asOf: Instant; zone: string }) {
  if (template.versions.length === 0) return null
  return (
    <section aria-labelledby="versions" className={css.versions}>
      <h2 id="versions">Versions</h2>
      <ol>
        {template.versions.map(({ version, at, by, orders }) => (
          <li key={version}>
            <strong>
              {version}, {by}, {when(at, Date.parse(asOf), zone)}
            </strong>
            : {ordersText(orders)}
          </li>
        ))}
      </ol>
    </section>
  )
}
