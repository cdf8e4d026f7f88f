'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { minutesDoor, minutesQuery } from '@/lib/client/minutes-query.ts'
import { dayAndTime, fullDate } from '@/lib/domain/local-time.ts'
import { contentHead, figuresPart, minutesLines, verdictsPart } from '@/lib/domain/minutes-lines.ts'
import type { KeptMinutes } from '@/lib/domain/week-minutes.ts'
import audit from '../audit.module.css'
import css from './minutes.module.css'
import { RegistryLinks } from './registry-links.tsx'
import { Sheet } from './sheet.tsx'
import { SignForm } from './sign-form.tsx'

/** The minutes of one week: as they stand until they are signed, then as they were signed, with every amendment. */
export function MinutesScreen({ week }: { week: string }) {
  const { data } = useSuspenseQuery(minutesQuery(week))
  const [isAmending, setAmending] = useState(false)
  const [says, setSays] = useState('')
  const [newest, ...earlier] = data.signed
  const done = (text: string) => {
    setAmending(false)
    setSays(text)
  }
  return (
    <div className={audit.screen}>
      <div className={audit.title}>
        <h1>Minutes of the week of {fullDate(week)}</h1>
        <p className={audit.tools}>
          <button type="button" onClick={() => window.print()}>
            Print
          </button>
          {newest?.isWhole ? (
            <a className="button" href={`${minutesDoor(week)}/pdf`}>
              PDF
            </a>
          ) : null}
          <Link className="button" href={`/audit/week/${week}`} prefetch={false}>
            To the week
          </Link>
        </p>
      </div>
      <p role="status" className={audit.says}>
        {says}
      </p>
      {newest ? <Signed kept={newest} /> : null}
      {newest && !isAmending ? (
        <p className={audit.tools}>
          <button type="button" onClick={() => setAmending(true)}>
            Amend these minutes
          </button>
        </p>
      ) : null}
      {newest && !isAmending ? null : (
        <>
          {newest ? <h2>As it stands now</h2> : <p className={audit.notice}>Not signed yet.</p>}
          <div className={css.sheet}>
            <Sheet
              head={contentHead(data.now)}
              parts={[verdictsPart(data.now), figuresPart(data.now)]}
              level={newest ? 3 : 2}
            />
          </div>
          {data.isOver ? (
            <SignForm page={data} onDone={done} onCancel={newest ? () => setAmending(false) : null} />
          ) : (
            <p>The week can be signed from {dayAndTime(data.now.until, data.clinic.timeZone)} on.</p>
          )}
        </>
      )}
      {earlier.length > 0 ? (
        <details className={css.earlier}>
          <summary>{earlier.length} as signed before</summary>
          {earlier.map((kept) => (
            <Signed key={kept.id} kept={kept} />
          ))}
        </details>
      ) : null}
      <RegistryLinks />
    </div>
  )
}

function Signed({ kept: { hash, isWhole, minutes } }: { kept: KeptMinutes }) {
  if (!minutes) return <p className={css.broken}>Minutes that were signed can no longer be read.</p>
  const { head, parts, signature } = minutesLines(minutes)
  return (
    <article className={css.sheet} aria-label={signature}>
      {isWhole ? null : (
        <p className={css.broken}>
          These minutes do not fit the hash with which they were signed: they have been altered since.
        </p>
      )}
      <Sheet head={head} parts={parts} level={2} />
      <div className={css.signature}>
        <p>{signature}</p>
        <p className={css.hash}>
          SHA-256 {hash}
          {isWhole ? ', tried on reading and found to fit' : ''}
        </p>
      </div>
    </article>
  )
}
