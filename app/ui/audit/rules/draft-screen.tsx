'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { draftQuery } from '@/lib/client/rules-queries.ts'
import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { DraftPage } from '@/lib/domain/rule-draft.ts'
import audit from '../audit.module.css'
import { Agreement } from './agreement.tsx'
import { ChangesTable } from './changes-table.tsx'
import { DraftDialog, type OpenDialog } from './draft-dialogs.tsx'
import { Replays } from './replays.tsx'
import css from './rules.module.css'
import { useDraftStep } from './use-draft-step.ts'
import { ValuesForm } from './values-form.tsx'
import { draftStateLabels, stepLabels } from './words.ts'

/** One draft: what it changes, what it was replayed on, who has put their name to it, and its next step. */
export function DraftScreen({ id, me }: { id: string; me: string }) {
  const { data } = useSuspenseQuery(draftQuery(id))
  const taker = useDraftStep(id, data.hash)
  const [open, setOpen] = useState<OpenDialog | null>(null)
  const [isChanging, setChanging] = useState(false)
  const { version, hash, state, reason, clinic } = data
  const zone = clinic.timeZone
  const isOver = state === 'in-force' || state === 'withdrawn'
  return (
    <div className={audit.screen}>
      <div>
        <h1>Draft {version}</h1>
        <p>
          <b>{draftStateLabels[state]}.</b> Written on {data.writtenOn}.
        </p>
        <p className={css.hash}>SHA-256 {hash}</p>
      </div>
      <p role="status" className={audit.says}>
        {taker.says}
      </p>
      {taker.fault && open === null && !isChanging ? (
        <p role="alert" className={audit.notice}>
          {taker.fault.text}
        </p>
      ) : null}
      {data.isStale ? (
        <Stale data={data} onRebase={() => taker.take({ step: 'rebase' }, rebased(data))} />
      ) : null}
      {isChanging ? (
        <ValuesForm
          thresholds={data.thresholds}
          base={data.base.version}
          begins={{
            values: Object.fromEntries(data.changes.map(({ name, value }) => [name, String(value)])),
            reason,
          }}
          main="Keep the change"
          isSending={taker.isSending}
          fault={taker.fault}
          onSend={(wanted) =>
            taker.take({ step: 'change', ...wanted }, 'The draft is changed. It must be proposed anew.', () =>
              setChanging(false),
            )
          }
          onClose={() => {
            taker.reset()
            setChanging(false)
          }}
        />
      ) : (
        <>
          <ChangesTable page={data} />
          <p>
            <b>Reason:</b> {reason}
          </p>
          <Replays page={data} />
          {isOver ? null : (
            <Agreement
              page={data}
              me={me}
              taker={taker}
              onOpen={setOpen}
              onChange={() => {
                taker.reset()
                setChanging(true)
              }}
            />
          )}
          <Steps page={data} zone={zone} />
        </>
      )}
      {open ? (
        <DraftDialog
          open={open}
          page={data}
          taker={taker}
          onClose={() => {
            taker.reset()
            setOpen(null)
          }}
        />
      ) : null}
    </div>
  )
}

const rebased = ({ version, base }: DraftPage) =>
  `${version} stands on ${base.version} now. It must be proposed anew.`

function Stale({ data, onRebase }: { data: DraftPage; onRebase: () => void }) {
  const { writtenOn, base, changes, version } = data
  const both = changes.filter((one) => one.base !== one.inForce && one.base !== one.value)
  return (
    <section className={audit.notice} aria-label="Another set stands now">
      <p>
        <b>
          This draft was written on {writtenOn}, and {base.version} stands now.
        </b>{' '}
        Look at it again: the table shows all three. What the draft changes is put on {base.version}; what it
        leaves alone is as {base.version} has it.
      </p>
      {both.length > 0 ? (
        <p className={css.warning}>
          Both change the same: {both.map(({ name }) => name).join(', ')}. The draft’s value would hold.
        </p>
      ) : null}
      <p className={audit.tools}>
        <button type="button" data-main onClick={onRebase}>
          Put {version} on {base.version}
        </button>
      </p>
    </section>
  )
}

function Steps({ page, zone }: { page: DraftPage; zone: string }) {
  return (
    <section aria-labelledby="steps" className={audit.part}>
      <h2 id="steps">Steps</h2>
      <ol className={css.steps}>
        {page.steps.map(({ step, at, by, why }) => (
          <li key={`${at} ${step}`}>
            {dateAndTime(at, zone)}: <b>{stepLabels[step]}</b>, {by}.{why ? ` ${why}` : ''}
          </li>
        ))}
      </ol>
    </section>
  )
}
