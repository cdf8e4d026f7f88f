import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { OrderTemplate } from '../domain/order-template.ts'
import { DrainKind } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { json, newId, type Rows, rowsOf, sql } from './rows.ts'

export const StoredTemplate = z.object({
  id: z.string(),
  kind: DrainKind,
  version: z.number(),
  body: json(OrderTemplate),
  recordedAt: Instant,
  recordedBy: z.string(),
})
export type StoredTemplate = z.infer<typeof StoredTemplate>

/** Every version of a clinic's usual orders, the newest of a kind first. */
export const orderTemplatesOf = (tx: Tx, clinicId: string): Promise<Rows<StoredTemplate>> =>
  rowsOf(
    tx,
    'order template',
    StoredTemplate,
    sql`SELECT * FROM "OrderTemplate" WHERE "clinicId" = ${clinicId} ORDER BY "kind", "version" DESC`,
  )

/** Adds the next version of a kind and says its number. */
export async function addOrderTemplate(
  tx: Tx,
  clinicId: string,
  kind: DrainKind,
  orders: OrderTemplate,
  recorded: { recordedAt: string; recordedBy: string },
): Promise<number> {
  const newest = await tx.orderTemplate.aggregate({ where: { clinicId, kind }, _max: { version: true } })
  const version = (newest._max.version ?? 0) + 1
  await tx.orderTemplate.create({
    data: { id: newId(), clinicId, kind, version, body: JSON.stringify(orders), ...recorded },
  })
  return version
}
