'use client'

import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import { addDays, fullDate } from '@/lib/domain/local-time.ts'
import type { DraftPage } from '@/lib/domain/rule-draft.ts'
import { Dialog } from '../../parts/dialog.tsx'
import form from '../../parts/form.module.css'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { TextField } from '../../parts/text-field.tsx'

/** How much of the history is offered, and how much of it as the later part, in days. */
const OFFERED = 56
const LATER = 14

type Props = {
  page: DraftPage
  history: NonNullable<DraftPage['history']>
  onClose: () => void
  onStarted: (replay: string) => void
}

/** Starts a replay of the draft over days of the clinic's history. */
export function ReplayDialog({ page, history, onClose, onStarted }: Props) {
  const { first, last } = history
  const offered = addDays(last, 1 - OFFERED)
  const later = addDays(last, 1 - LATER)
  const [from, setFrom] = useState([offered, first].sort()[1] ?? first)
  const [until, setUntil] = useState(last)
  const [laterFrom, setLaterFrom] = useState(later > from ? later : '')
  const { send, isSending, fault } = useSend(
    '/api/audit/replays',
    z.looseObject({ replay: z.string() }),
    ({ replay }) => onStarted(replay),
  )
  const day = { type: 'date', min: first, max: last } as const
  return (
    <Dialog
      title={`Replay ${page.version}`}
      about={`What it would have done from ${fullDate(first)} on, when the first report came.`}
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          if (!fault?.stored) send({ draft: page.id, from, until, laterFrom: laterFrom || null })
        }}
      >
        <div className={form.form}>
          <div className={form.row}>
            <TextField {...day} label="From" value={from} onChange={setFrom} fault={faultOf(fault, 'from')} />
            <TextField
              {...day}
              label="Until, that day included"
              value={until}
              onChange={setUntil}
              fault={faultOf(fault, 'until')}
            />
          </div>
          <TextField
            {...day}
            label="Later part from"
            hint="A draft that was tuned on the earlier part is shown on the later one. Empty: not divided."
            value={laterFrom}
            onChange={setLaterFrom}
            fault={faultOf(fault, 'laterFrom')}
          />
        </div>
        <FormFoot
          main="Run it"
          isSending={isSending}
          fault={fault}
          shown={['from', 'until', 'laterFrom']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}
