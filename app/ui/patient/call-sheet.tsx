import type { ReactNode } from 'react'
import { callSheet } from '@/lib/domain/call-sheet.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './call-sheet.module.css'

/** What the caller has before them, in the order in which one colleague tells another, down to what to do. */
export function CallSheet({ page, now, children }: { page: PatientPage; now: number; children: ReactNode }) {
  const { situation, background, seen, ask, next } = callSheet(page, now)
  return (
    <section className={css.sheet} aria-labelledby="call-sheet">
      <div className={css.head}>
        <h2 id="call-sheet">Call sheet</h2>
        <div className={css.actions}>{children}</div>
      </div>
      <dl>
        <Part title="Situation">
          {situation.length === 0 ? <p>Nothing is flagged.</p> : null}
          {situation.map(({ lead, rest, owed }) => (
            <p key={lead + rest}>
              <b>{lead}</b>
              {rest}
              {owed ? <span className={css.owed}> Over by now, but nobody has spoken to them.</span> : null}
            </p>
          ))}
        </Part>
        <Part title="Background">
          {background.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Part>
        <Part title="Rules see">
          {[...new Set(seen)].map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Part>
        {ask.length > 0 ? (
          <Part title="Ask">
            <ul>
              {ask.map((question) => (
                <li key={question}>
                  <label className={css.question}>
                    <input type="checkbox" /> <span>{question}</span>
                  </label>
                </li>
              ))}
            </ul>
          </Part>
        ) : null}
        {next.length > 0 ? (
          <Part title="Then">
            <p>By local protocol:</p>
            {next.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </Part>
        ) : null}
      </dl>
    </section>
  )
}

function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className={css.part}>
      <dt>{title}</dt>
      <dd>{children}</dd>
    </div>
  )
}
