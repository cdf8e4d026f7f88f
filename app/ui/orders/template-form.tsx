'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import { confidenceLabels, kindLabels } from '@/lib/domain/labels.ts'
import type { KindTemplate } from '@/lib/domain/order-template.ts'
import { standardOrders } from '@/lib/domain/standard-orders.ts'
import form from '../parts/form.module.css'
import {
  draftOfTemplate,
  type OrdersDraft,
  type OrdersFaults,
  ordersFaults,
  ordersFieldOf,
  toTemplate,
} from '../parts/orders-draft.ts'
import { OrdersFields } from '../parts/orders-fields.tsx'

const Saved = z.looseObject({ version: z.number() })

type Props = { template: KindTemplate; onDone: (says: string) => void }

/** The usual orders of one kind. Saving makes a further version. */
export function TemplateForm({ template, onDone }: Props) {
  const { kind, orders, versions } = template
  const router = useRouter()
  const [draft, setDraft] = useState(() => draftOfTemplate(orders))
  const [own, setOwn] = useState<OrdersFaults>({})
  const { send, isSending, fault } = useSend('/api/order-templates', Saved, ({ version }) => {
    onDone(`${kindLabels[kind]}: version ${version} is saved.`)
    router.refresh()
  })
  const theirs = Object.fromEntries(
    (fault?.fields ?? []).map(({ field, message }) => [ordersFieldOf(field) ?? field, message]),
  )
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const found = ordersFaults(draft)
        setOwn(found)
        if (Object.keys(found).length === 0 && !fault?.stored) send({ kind, orders: toTemplate(draft) })
        else queueMicrotask(() => document.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
      }}
    >
      <div className={form.stack}>
        <OrdersFields
          draft={draft}
          set={(part) => setDraft((before) => ({ ...before, ...part }))}
          faults={{ ...theirs, ...own }}
          {...(versions.length === 0 ? { sources: sourcesOf(kind) } : {})}
        />
        {fault ? (
          <p role="alert" className={form.fault}>
            {fault.text}
          </p>
        ) : null}
        <p>
          <button type="submit" data-main aria-disabled={isSending}>
            {isSending ? 'Sending' : 'Save as a new version'}
          </button>
        </p>
      </div>
    </form>
  )
}

/** Where each standard value comes from, beside the field that shows it. */
function sourcesOf(kind: KindTemplate['kind']): Partial<Record<keyof OrdersDraft, string>> {
  const { sources } = standardOrders[kind]
  const shown: Partial<Record<keyof OrdersDraft, string>> = {}
  for (const [name, { source, confidence }] of Object.entries(sources)) {
    const field = ordersFieldOf(name)
    if (field) shown[field] = `${confidenceLabels[confidence]}: ${source}`
  }
  return shown
}
