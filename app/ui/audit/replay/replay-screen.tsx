'use client'

import { useQueryClient, useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { z } from 'zod'
import { replayDoor, replayQuery } from '@/lib/client/replay-query.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { clockTime, fullDate, localDate } from '@/lib/domain/local-time.ts'
import { type Replay, ReplayState } from '@/lib/domain/replay.ts'
import audit from '../audit.module.css'
import { DifferingList } from './differing-list.tsx'
import { PartTables } from './part-tables.tsx'
import css from './replay.module.css'
import { stateWords } from './words.ts'

/** A replay: how far it is, and what it found. */
export function ReplayScreen({ id, zone, mayCancel }: { id: string; zone: string; mayCancel: boolean }) {
  const { data } = useSuspenseQuery(replayQuery(id))
  const { rules, from, until, laterFrom, by, at, draft } = data
  const isOver = data.state !== 'waiting' && data.state !== 'running'
  return (
    <div className={audit.screen}>
      <div>
        <h1>Replay of {rules.version}</h1>
        <p>
          {fullDate(from)} to {fullDate(until)}
          {laterFrom ? `, with the later part from ${fullDate(laterFrom)}` : ''}. Started by {by} on{' '}
          {fullDate(localDate(at, zone))}, {clockTime(at, zone)}; what was known then is in it, nothing later.
        </p>
        {draft ? (
          <p>
            <Link href={`/audit/rules/${encodeURIComponent(draft)}`} prefetch={false}>
              The draft
            </Link>
          </p>
        ) : null}
      </div>
      <p role="status" className={audit.says}>
        {isOver ? saysOf(data) : ''}
      </p>
      {isOver ? null : <Progress replay={data} mayCancel={mayCancel} />}
      {data.result ? (
        <>
          <ReadFirst replay={data} zone={zone} />
          <PartTables result={data.result} />
          <DifferingList id={id} result={data.result} />
        </>
      ) : null}
    </div>
  )
}

function saysOf({ state, trouble, result, total }: Replay): string {
  if (state !== 'done' || !result) return `${stateWords[state]}. ${trouble ?? ''}`
  return `Done: ${total} patients in ${result.seconds} s.`
}

function Progress({ replay, mayCancel }: { replay: Replay; mayCancel: boolean }) {
  const { id, done, total, state } = replay
  const client = useQueryClient()
  const { send, isSending, fault } = useSend(
    replayDoor(id),
    z.looseObject({ state: ReplayState }),
    () => void client.invalidateQueries({ queryKey: replayQuery(id).queryKey }),
    undefined,
    'DELETE',
  )
  return (
    <section className={`${audit.panel} ${css.running}`} aria-label="Progress">
      <label>
        {stateWords[state]}
        {total > 0 ? `: ${done} of ${total} patients` : ''}
        <progress className={css.progress} max={Math.max(1, total)} value={done} />
      </label>
      <p className={audit.quiet}>
        It runs behind everything else; nobody waits for it. This page can be left and come back to.
      </p>
      {mayCancel ? (
        <button type="button" disabled={isSending} onClick={() => send(undefined)}>
          Cancel it
        </button>
      ) : null}
      {fault ? <p role="alert">{fault.text}</p> : null}
    </section>
  )
}

/** What the numbers cannot say, before the numbers. */
function ReadFirst({ replay: { result, rules }, zone }: { replay: Replay; zone: string }) {
  if (!result) return null
  const { agreement, inForce, unreadable, unjudged } = result
  return (
    <section className={`${audit.notice} ${css.first}`} aria-labelledby="read-first">
      <h2 id="read-first">Read this first</h2>
      <ul>
        <li>
          <b>Calls already made changed what followed.</b> A patient who was called and helped has another
          course than one who was not; the replay keeps the calls as they were made, and nobody called about a
          flag that only {rules.version} opens.
        </li>
        <li>
          Compared with what was in force then: {inForce.join(', ')}. {rules.version} counts from the first
          day of the period on.
        </li>
        <li>
          {agreement.different === 0
            ? `What was in force, replayed, gives the ${agreement.same} flags that happened.`
            : `What was in force, replayed, gives ${agreement.same} of the flags that happened; ${agreement.different} differ, as where the server did not run when something fell due.`}
          {agreement.examples.length > 0 ? <Examples examples={agreement.examples} zone={zone} /> : null}
        </li>
        <li>
          {unjudged} flags that only {rules.version} opens have no verdict: nobody has read them. Predictive
          value is told of the flags that were read and stand under both.
        </li>
        <li>
          Outside events are those that the clinic was told of. Of patients of whom nobody asked some are
          missing: the share that was found is no sensitivity.
        </li>
        {unreadable > 0 ? (
          <li>
            <b>{unreadable}</b> rows or patients could not be read, and are not in it.
          </li>
        ) : null}
      </ul>
    </section>
  )
}

function Examples({ examples, zone }: { examples: readonly string[]; zone: string }) {
  return (
    <details>
      <summary>The first of them</summary>
      <ul>
        {examples.map((example) => (
          <li key={example}>
            {example.replace(/^\S+/, (at) => `${fullDate(localDate(at, zone))}, ${clockTime(at, zone)}:`)}
          </li>
        ))}
      </ul>
    </details>
  )
}
