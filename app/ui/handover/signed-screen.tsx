'use client'

import Link from 'next/link'
import { type HandoverSheet, staying } from '@/lib/domain/handover.ts'
import { signatures } from '@/lib/domain/handover-lines.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import css from './handover.module.css'
import { Sheet } from './sheet.tsx'

/** A handover as both signed it: nothing of it changes any more. */
export function SignedScreen({ sheet }: { sheet: HandoverSheet }) {
  const { handover, entries, clinic } = sheet
  if (!handover) return null
  const left = staying(entries)
  return (
    <div className={css.screen}>
      <div className={css.title}>
        <h1>Handover of {dayAndTime(sheet.asOf, clinic.timeZone)}</h1>
        <p className={css.tools}>
          <button type="button" onClick={() => window.print()}>
            Print
          </button>
          <a className="button" href={`/api/handovers/${handover.id}/pdf`}>
            PDF
          </a>
          <Link className="button" href="/handover" prefetch={false}>
            To the handover of now
          </Link>
        </p>
      </div>
      <section className={css.panel} aria-label="Signatures">
        <ul className={css.signatures}>
          {signatures(handover, clinic.timeZone).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {left.length > 0 ? (
          <p className={css.staying}>
            Stayed with {handover.givenBy.name}: {left.map(({ name }) => name).join(', ')}.
          </p>
        ) : (
          <p>Every row at once or within 1 hour was accepted by name.</p>
        )}
        {handover.note ? (
          <p className={css.note}>
            <b>Note of {handover.givenBy.name}:</b> {handover.note}
          </p>
        ) : null}
      </section>
      <Sheet sheet={sheet} accept={null} />
    </div>
  )
}
