import { beforeEach, expect, it } from 'vitest'
import { standardOrders } from '../../lib/domain/standard-orders.ts'
import { DrainKind } from '../../lib/domain/words.ts'
import { offeredOrders, readOrderTemplates, saveOrderTemplate } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { at, chargeNurse, iso, nurse, openClinics, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const orders = {
  ...standardOrders.biliary.orders,
  flush: { volumeMl: 5, everyHours: 12 },
  flushAt: ['08:00', '20:00'],
}

it('a clinic that has set none is offered the standard orders of every kind', async () => {
  const templates = await readOrderTemplates(nurse)
  expect(templates.map(({ kind }) => kind)).toEqual(DrainKind.options)
  for (const template of templates) {
    expect(template.orders).toEqual(standardOrders[template.kind].orders)
    expect(template.versions).toEqual([])
  }
})

it('what a clinic saves is offered from then on; earlier versions stay, with who and when', async () => {
  await saveOrderTemplate(
    chargeNurse,
    { kind: 'biliary', orders: standardOrders.biliary.orders },
    'k1',
    at(0),
  )
  await saveOrderTemplate(chargeNurse, { kind: 'biliary', orders }, 'k2', at(1))
  expect(await saveOrderTemplate(chargeNurse, { kind: 'biliary', orders }, 'k2', at(2))).toEqual({
    version: 2,
  })
  expect((await offeredOrders(nurse)).biliary).toEqual(orders)
  const biliary = (await readOrderTemplates(nurse)).find(({ kind }) => kind === 'biliary')
  expect(biliary?.versions.map(({ version, by, at: when }) => [version, by, when])).toEqual([
    [2, chargeNurse.name, iso(1)],
    [1, chargeNurse.name, iso(0)],
  ])
  expect((await offeredOrders(stranger)).biliary).toEqual(standardOrders.biliary.orders)
  const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'edit-order-template' } }))
  expect(seen.map(({ what }) => what)).toEqual([
    'usual orders of biliary, version 1',
    'usual orders of biliary, version 2',
  ])
})

it('refuses orders out of their range, and a kind that is none', async () => {
  await expect(
    saveOrderTemplate(chargeNurse, { kind: 'biliary', orders: { ...orders, logEveryHours: 0 } }, 'k', at(0)),
  ).rejects.toMatchObject({ kind: 'invalid-input', faults: [{ field: 'orders.logEveryHours' }] })
  await expect(saveOrderTemplate(chargeNurse, { kind: 'hose', orders }, 'k', at(0))).rejects.toMatchObject({
    faults: [{ field: 'kind' }],
  })
})
