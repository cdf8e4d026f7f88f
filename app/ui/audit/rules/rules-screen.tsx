'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { rulesQuery } from '@/lib/client/rules-queries.ts'
import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { DraftInList, RuleSetInList } from '@/lib/domain/rule-draft.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { BackDialog } from './back-dialog.tsx'
import { OwnTable } from './own-table.tsx'
import css from './rules.module.css'
import { SetsTable } from './sets-table.tsx'
import { draftStateLabels } from './words.ts'

/** The rule sets of the clinic: the one in force, those before and after it, drafts, and what was set for single drains. */
export function RulesScreen() {
  const { data } = useSuspenseQuery(rulesQuery)
  const [back, setBack] = useState<RuleSetInList | null>(null)
  const [says, setSays] = useState('')
  const { sets, drafts, own, unreadable, clinic } = data
  const zone = clinic.timeZone
  const inForce = sets.find(({ state }) => state === 'in-force')
  return (
    <div className={audit.screen}>
      <div className={audit.title}>
        <h1>Rule sets</h1>
        <p className={audit.tools}>
          <Link className="button" data-main href="/audit/rules/new" prefetch={false}>
            Write a draft
          </Link>
        </p>
      </div>
      {inForce ? (
        <p>
          <b>{inForce.version}</b> is in force{' '}
          {inForce.from === null ? 'from the beginning' : `since ${dateAndTime(inForce.from, zone)}`}. A flag
          says under which set it was opened. A change takes a draft, a reason, a replay, and a second person.
        </p>
      ) : null}
      <p role="status" className={audit.says}>
        {says}
      </p>
      {unreadable.length > 0 ? (
        <p className={audit.notice}>
          {unreadable.length} could not be read and may be missing below: {unreadable.join('; ')}.
        </p>
      ) : null}
      <SetsTable sets={sets} zone={zone} onBack={setBack} />
      <Drafts drafts={drafts} zone={zone} />
      <OwnTable own={own} zone={zone} />
      {back ? (
        <BackDialog
          target={back}
          sets={sets}
          zone={zone}
          onClose={() => setBack(null)}
          onDone={(done) => {
            setBack(null)
            setSays(done)
          }}
        />
      ) : null}
    </div>
  )
}

function Drafts({ drafts, zone }: { drafts: readonly DraftInList[]; zone: string }) {
  const standing = drafts.filter(({ state }) => state !== 'in-force' && state !== 'withdrawn')
  const over = drafts.filter((one) => !standing.includes(one))
  return (
    <section aria-labelledby="drafts" className={audit.part}>
      <h2 id="drafts">Drafts</h2>
      {standing.length === 0 ? (
        <p>No draft is open.</p>
      ) : (
        <DraftsTable label="Open drafts" drafts={standing} zone={zone} />
      )}
      {over.length > 0 ? (
        <details>
          <summary>{over.length} that were put in force or withdrawn</summary>
          <DraftsTable label="Earlier drafts" drafts={over} zone={zone} />
        </details>
      ) : null}
    </section>
  )
}

function DraftsTable({
  label,
  drafts,
  zone,
}: {
  label: string
  drafts: readonly DraftInList[]
  zone: string
}) {
  return (
    <Scroll label={label}>
      <table className={audit.table}>
        <thead>
          <tr>
            <th scope="col">Draft</th>
            <th scope="col">Stands</th>
            <th scope="col">Written</th>
            <th scope="col">Reason</th>
          </tr>
        </thead>
        <tbody>
          {drafts.map(({ id, version, base, state, isStale, by, at, reason }) => (
            <tr key={id}>
              <th scope="row">
                <Link href={`/audit/rules/${encodeURIComponent(id)}`} prefetch={false}>
                  {version}
                </Link>
              </th>
              <td>
                {draftStateLabels[state]}
                {isStale ? <p className={css.warning}>Written on {base}, which no longer stands</p> : null}
              </td>
              <td>
                {by}, {dateAndTime(at, zone)}
              </td>
              <td>{reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
