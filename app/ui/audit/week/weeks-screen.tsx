'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { weeksQuery } from '@/lib/client/audit-week-queries.ts'
import { FORTNIGHT_DAYS } from '@/lib/domain/week-page.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { agreementLines, itemsText, lineText, weekText } from './week-words.ts'

/** The weeks that are over, what is left to read in each, and how far two readings agree. */
export function WeeksScreen() {
  const { data } = useSuspenseQuery(weeksQuery)
  const { weeks, readers, agreement } = data
  const [last] = weeks
  return (
    <div className={audit.screen}>
      <h1>The week</h1>
      <p className={audit.about}>
        About twenty minutes: flags, and days on which none stood, each read without being told which it is.
        Give a verdict first; what happened opens afterwards.
      </p>
      {last ? (
        <p>
          <Link className="button" data-main href={`/audit/week/${last.week}`} prefetch={false}>
            Read {weekText(last.week)}
          </Link>{' '}
          {last.isDrawn ? `${itemsText(last.mine)} for you; ${lineText(last)}` : 'Not opened yet.'}
        </p>
      ) : (
        <p>No week is over since the first patient was enrolled.</p>
      )}
      {weeks.length > 1 ? (
        <Scroll label="Weeks that are over">
          <table className={audit.table}>
            <caption>Weeks that are over</caption>
            <thead>
              <tr>
                <th scope="col">Week</th>
                <th scope="col">Readings</th>
                <th scope="col">For you</th>
              </tr>
            </thead>
            <tbody>
              {weeks.map((line) => (
                <tr key={line.week}>
                  <th scope="row">
                    <Link href={`/audit/week/${line.week}`} prefetch={false}>
                      {weekText(line.week)}
                    </Link>
                  </th>
                  <td>{lineText(line)}</td>
                  <td>{line.isDrawn ? itemsText(line.mine) : '–'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      ) : null}
      <section aria-labelledby="agreement" className={audit.part}>
        <h2 id="agreement">Agreement of two blind readings</h2>
        {agreementLines(agreement).map((line) => (
          <p key={line}>{line}</p>
        ))}
        <p className={audit.quiet}>
          {readers > 1
            ? 'A fifth of all items is read twice, by two people.'
            : `One person reads here: a fifth of all items is read by the same person again after ${FORTNIGHT_DAYS} days, which shows how steady the verdicts are, not whether another would agree. That person also settles what differs.`}
        </p>
      </section>
    </div>
  )
}
