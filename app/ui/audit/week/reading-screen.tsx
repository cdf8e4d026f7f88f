'use client'

import { useQuery, useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { itemQuery, weekQuery } from '@/lib/client/audit-week-queries.ts'
import type { LocalDate } from '@/lib/domain/instant.ts'
import { dayAndTime, dayMonth, fullDate, weekday } from '@/lib/domain/local-time.ts'
import { verdictLabels } from '@/lib/domain/review-page.ts'
import type { WeekItem, WeekPage } from '@/lib/domain/week-page.ts'
import { Key } from '../../parts/key.tsx'
import { useKeyChoice } from '../../worklist/use-key-choice.ts'
import audit from '../audit.module.css'
import { ItemRecord } from './item-record.tsx'
import { keyOfDoing } from './keys.ts'
import { ReadItem } from './read-item.tsx'
import css from './week.module.css'
import { itemsText, sharesText, weekText } from './week-words.ts'

/** One week, item by item. */
export function ReadingScreen({ week }: { week: LocalDate }) {
  const { data: page } = useSuspenseQuery(weekQuery(week))
  const [keysOn, turnKeys] = useKeyChoice()
  const first = page.items.find(({ task }) => task !== 'none') ?? page.items[0]
  const [current, setCurrent] = useState(first?.id ?? null)
  const at = page.items.findIndex(({ id }) => id === current)
  const item = page.items[at]
  const { data, error } = useQuery({ ...itemQuery(current ?? ''), enabled: current !== null })
  const go = (step: 1 | -1): boolean => {
    const next = page.items[at + step]
    if (next) setCurrent(next.id)
    return next !== undefined
  }
  if (!item)
    return (
      <div className={audit.screen}>
        <h1>The week of {weekText(week)}</h1>
        <p>Nothing to read: no flag opened, and nobody was followed through a day without one.</p>
      </div>
    )
  return (
    <div className={audit.screen}>
      <div className={css.title}>
        <h1>The week of {weekText(week)}</h1>
        <Progress page={page} at={at} />
        <p className={audit.tools}>
          <button type="button" aria-disabled={at <= 0} onClick={() => go(-1)} aria-keyshortcuts="K">
            Previous <Key on={keysOn}>{keyOfDoing('previous')}</Key>
          </button>
          <button
            type="button"
            aria-disabled={at >= page.items.length - 1}
            onClick={() => go(1)}
            aria-keyshortcuts="J"
          >
            Next <Key on={keysOn}>{keyOfDoing('next')}</Key>
          </button>
          <Link className="button" href={`/audit/week/${week}/minutes`} prefetch={false}>
            Minutes
          </Link>
          <button type="button" data-quiet onClick={turnKeys}>
            {keysOn ? 'Turn keys off' : 'Turn keys on'}
          </button>
        </p>
      </div>
      <p className={css.whose} aria-live="polite">
        <b>{item.name}</b> · {fullDate(item.birthDate)} · {item.recordNumber} · {weekday(item.date)}{' '}
        {dayMonth(item.date)}
        <Standing item={item} zone={page.clinic.timeZone} />
      </p>
      {error ? <p role="alert">{error.message}</p> : null}
      {data?.item === item.id ? (
        <div className={css.room}>
          <ItemRecord item={data} />
          <ReadItem key={`${data.item} ${data.reading}`} item={data} keysOn={keysOn} onMove={go} />
        </div>
      ) : (
        <p className={audit.quiet}>Reading.</p>
      )}
      <Items page={page} current={item.id} onGo={setCurrent} />
      <p className={audit.quiet}>
        {sharesText(page.shares)} About {page.minutes} minutes.
      </p>
    </div>
  )
}

function Progress({ page, at }: { page: WeekPage; at: number }) {
  const left = page.items.filter(({ task }) => task !== 'none').length
  const done = page.items.length - left
  return (
    <p className={css.progress}>
      <b>
        Item {at + 1} of {page.items.length}
      </b>
      <progress aria-label="Read" max={page.items.length} value={done} /> {itemsText(left)} left for you
    </p>
  )
}

/** What whoever reads has said, or may say. */
function Standing({ item, zone }: { item: WeekItem; zone: string }) {
  const { task, own, counts, notBefore } = item
  if (task === 'read-again') return <> · second reading, blind</>
  if (task === 'settle') return <> · two readings to settle</>
  if (task === 'read') return null
  const said = own ? `yours: ${verdictLabels[own].toLowerCase()}` : 'read by somebody else'
  const others = own ? '; waits for another reading' : ''
  const holds =
    counts === null ? others : counts === own ? '' : `; what counts: ${verdictLabels[counts].toLowerCase()}`
  const again = notBefore ? `; again from ${dayAndTime(notBefore, zone)}` : ''
  return (
    <>
      {' '}
      · {said}
      {holds}
      {again}
    </>
  )
}

function Items({ page, current, onGo }: { page: WeekPage; current: string; onGo: (id: string) => void }) {
  return (
    <nav aria-label="Items" className={css.items}>
      <ol>
        {page.items.map(({ id, n, name, task, own }) => (
          <li key={id}>
            <button
              type="button"
              aria-current={id === current ? 'true' : undefined}
              data-done={task === 'none' || undefined}
              onClick={() => onGo(id)}
            >
              {n}
              <span className="for-reader">
                {' '}
                {name}, {task === 'none' ? (own ? 'read' : 'nothing for you') : 'to read'}
              </span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  )
}
