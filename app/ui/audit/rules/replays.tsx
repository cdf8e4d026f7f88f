'use client'

import Link from 'next/link'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { fullDate } from '@/lib/domain/local-time.ts'
import type { AttachedReplay, DraftPage } from '@/lib/domain/rule-draft.ts'
import audit from '../audit.module.css'
import { ReplayDialog } from './replay-dialog.tsx'

const stateLabels: Readonly<Record<AttachedReplay['state'], string>> = {
  waiting: 'waits for its turn',
  running: 'is running',
  done: 'has ended',
  failed: 'failed',
  cancelled: 'was cancelled',
}

/** What the draft would have done to what was. */
export function Replays({ page }: { page: DraftPage }) {
  const { replays, history, state } = page
  const router = useRouter()
  const [isOpen, setOpen] = useState(false)
  const isOver = state === 'in-force' || state === 'withdrawn'
  const isBusy = replays.some((one) => one.state === 'waiting' || one.state === 'running')
  return (
    <section aria-labelledby="replays" className={audit.part}>
      <h2 id="replays">Replay</h2>
      {replays.length === 0 ? <p>It has not been run over the clinic’s history.</p> : null}
      {history === null ? <p>No report has come yet: there is no history to run it over.</p> : null}
      <ul>
        {replays.map(({ id, state, from, until, isOfThis, gained, lost }) => (
          <li key={id}>
            <Link href={`/audit/replays/${encodeURIComponent(id)}`} prefetch={false}>
              {fullDate(from)} to {fullDate(until)}
            </Link>{' '}
            {stateLabels[state]}
            {gained !== null && lost !== null ? (
              <>
                : <b>{gained}</b> flags gained, <b>{lost}</b> lost
              </>
            ) : null}
            {isOfThis ? '' : '; with other values than the draft has now'}.
          </li>
        ))}
      </ul>
      {history === null || isOver || isBusy ? null : (
        <p className={audit.tools}>
          <button type="button" onClick={() => setOpen(true)}>
            Run a replay
          </button>
        </p>
      )}
      {isOpen && history ? (
        <ReplayDialog
          page={page}
          history={history}
          onClose={() => setOpen(false)}
          onStarted={(replay) => router.push(`/audit/replays/${encodeURIComponent(replay)}`)}
        />
      ) : null}
    </section>
  )
}
