'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { callTextsQuery } from '@/lib/client/settings-queries.ts'
import type { CallTextBody, CallTextOfFinding } from '@/lib/domain/call-text.ts'
import { findingLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import form from '../parts/form.module.css'
import css from './call-texts.module.css'
import { StandardCallText, WriteCallText } from './call-texts-dialog.tsx'
import { answerLabels } from './call-texts-draft.ts'
import settings from './settings.module.css'

type Open = { what: 'write' | 'standard'; finding: CallTextOfFinding }

/** What callers ask, advise and escalate, finding by finding: the clinic's own words, or the shipped ones until it has some. */
export function CallTextsScreen({ zone }: { zone: string }) {
  const { data } = useSuspenseQuery(callTextsQuery)
  const [open, setOpen] = useState<Open | null>(null)
  const [says, setSays] = useState('')
  const standard = data.findings.filter(({ isStandard }) => isStandard).length
  const dialog = {
    onClose: () => setOpen(null),
    onDone: (done: string) => {
      setOpen(null)
      setSays(done)
    },
  }
  return (
    <>
      <h1>Questions of the call</h1>
      <p className={form.hint}>
        What the call sheet asks, advises and escalates for each finding. They are this clinic’s texts: read
        each with whoever answers for local protocol, change it, and keep it as the clinic’s own.
      </p>
      {standard > 0 ? (
        <p className={settings.unread}>
          {standard} of {data.findings.length} are the shipped texts, which this clinic has not approved:
          common practice, no source.
        </p>
      ) : null}
      <p role="status">{says}</p>
      {data.findings.map((finding) => (
        <OneFinding
          key={finding.code}
          finding={finding}
          zone={zone}
          onOpen={(what) => setOpen({ what, finding })}
        />
      ))}
      {open?.what === 'write' ? <WriteCallText finding={open.finding} {...dialog} /> : null}
      {open?.what === 'standard' ? <StandardCallText finding={open.finding} {...dialog} /> : null}
    </>
  )
}

type OneProps = { finding: CallTextOfFinding; zone: string; onOpen: (what: Open['what']) => void }

function OneFinding({ finding, zone, onOpen }: OneProps) {
  const { code, isStandard, body, versions } = finding
  const name = findingLabels[code]
  const [now] = versions
  return (
    <section className={settings.case} aria-label={name}>
      <div className={css.head}>
        <h2>{name}</h2>
        <p className={isStandard ? settings.unread : settings.quiet}>
          {isStandard || !now
            ? 'Standard text, not approved by this clinic'
            : `Version ${now.version}, kept ${dayAndTime(now.at, zone)} by ${now.by}`}
        </p>
        <button type="button" onClick={() => onOpen('write')}>
          {isStandard ? 'Read and keep' : 'Change'}
          <span className="for-reader">: {name}</span>
        </button>
        {isStandard ? null : (
          <button type="button" data-quiet onClick={() => onOpen('standard')}>
            Back to the standard text<span className="for-reader">: {name}</span>
          </button>
        )}
      </div>
      <Body body={body} />
      {versions.length > 0 ? (
        <details>
          <summary>{versions.length === 1 ? '1 version' : `${versions.length} versions`}</summary>
          <ol className={settings.history}>
            {versions.map((one) => (
              <li key={one.version}>
                <p className={settings.quiet}>
                  Version {one.version}, {dayAndTime(one.at, zone)}, {one.by}
                  {one.body === null ? ': back to the standard text.' : ':'}
                </p>
                {one.body === null ? null : <Body body={one.body} />}
              </li>
            ))}
          </ol>
        </details>
      ) : null}
    </section>
  )
}

function Body({ body: { ask, advise, escalate } }: { body: CallTextBody }) {
  return (
    <dl className={css.body}>
      <div>
        <dt>Ask</dt>
        {ask.map(({ question, answer }) => (
          <dd key={question}>
            {question} <span className={settings.quiet}>({answerLabels[answer]})</span>
          </dd>
        ))}
      </div>
      <div>
        <dt>Advise</dt>
        {advise.length === 0 ? <dd className={settings.quiet}>nothing</dd> : null}
        {advise.map((text) => (
          <dd key={text}>{text}</dd>
        ))}
      </div>
      <div>
        <dt>Escalate</dt>
        {escalate.length === 0 ? <dd className={settings.quiet}>nothing</dd> : null}
        {escalate.map((text) => (
          <dd key={text}>{text}</dd>
        ))}
      </div>
    </dl>
  )
}
