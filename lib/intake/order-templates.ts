import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type KindTemplate, NewOrderTemplate, type OrderTemplate } from '../domain/order-template.ts'
import type { StaffMember } from '../domain/staff.ts'
import { standardOrders } from '../domain/standard-orders.ts'
import { DrainKind } from '../domain/words.ts'
import { answerOnce } from '../store/answered.ts'
import { snapshot, write } from '../store/index.ts'
import { addOrderTemplate, orderTemplatesOf } from '../store/order-templates.ts'
import { stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { parse } from './parse.ts'

/** What the clinic usually orders for each kind, with every version and who set it; the standard where it set none. */
export async function readOrderTemplates({ clinicId }: StaffMember): Promise<KindTemplate[]> {
  const { templates, names } = await snapshot(async (tx) => ({
    templates: await orderTemplatesOf(tx, clinicId),
    names: await staffNamesOf(tx, clinicId),
  }))
  return DrainKind.options.map((kind) => {
    const versions = templates.rows
      .filter((template) => template.kind === kind)
      .map(({ version, body, recordedAt, recordedBy }) => ({
        version,
        at: recordedAt,
        by: names.get(recordedBy) ?? recordedBy,
        orders: body,
      }))
    return { kind, orders: versions[0]?.orders ?? standardOrders[kind].orders, versions }
  })
}

/** What enrolment offers for each kind. */
export async function offeredOrders(staff: StaffMember): Promise<Record<DrainKind, OrderTemplate>> {
  const templates = await readOrderTemplates(staff)
  return Object.fromEntries(templates.map(({ kind, orders }) => [kind, orders])) as Record<
    DrainKind,
    OrderTemplate
  >
}

/**
 * Saves what the clinic usually orders for a kind, as a further version. It changes nobody's orders.
 * @throws Refusal invalid-input, key-reused
 */
export async function saveOrderTemplate(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ version: number }> {
  const { clinicId } = staff
  const at = stored(now)
  return write((tx) =>
    answerOnce(tx, { clinicId, source: staff.id, key, body: { template: body } }, at, async () => {
      const { kind, orders } = parse('template', NewOrderTemplate, body)
      const version = await addOrderTemplate(tx, clinicId, kind, orders, {
        recordedAt: at,
        recordedBy: staff.id,
      })
      await recordAccess(tx, {
        clinicId,
        at,
        staffId: staff.id,
        actor: staff.name,
        action: 'edit-order-template',
        patientId: null,
        what: `usual orders of ${kind}, version ${version}`,
      })
      return { version }
    }),
  )
}
