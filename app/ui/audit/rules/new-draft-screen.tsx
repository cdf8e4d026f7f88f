'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { z } from 'zod'
import { beginningQuery } from '@/lib/client/rules-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import audit from '../audit.module.css'
import css from './rules.module.css'
import { ValuesForm } from './values-form.tsx'

/** A new draft, written on the set that stands. */
export function NewDraftScreen() {
  const { data } = useSuspenseQuery(beginningQuery)
  const router = useRouter()
  const { base, thresholds } = data
  const { send, isSending, fault } = useSend(
    '/api/audit/rules/drafts',
    z.looseObject({ draft: z.string() }),
    ({ draft }) => router.push(`/audit/rules/${encodeURIComponent(draft)}`),
  )
  return (
    <div className={audit.screen}>
      <h1>A draft of a rule set</h1>
      <p>
        Written on <b>{base.version}</b>, hash <span className={css.hash}>{base.hash}</span>. A draft changes
        nothing for any patient. It can be replayed over what was, must be approved by a second person, and
        comes into force from a moment that you choose.
      </p>
      <ValuesForm
        thresholds={thresholds}
        base={base.version}
        begins={{ values: {}, reason: '' }}
        main="Keep the draft"
        isSending={isSending}
        fault={fault}
        onSend={send}
        onClose={() => router.push('/audit/rules')}
      />
    </div>
  )
}
