'use client'

import { useRef, useState } from 'react'
import { newKey } from '@/lib/client/new-key.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { Harm, Truly, Verdict } from '@/lib/domain/review.ts'
import { harmLabels, trulyLabels, verdictLabels } from '@/lib/domain/review-page.ts'
import type { ItemPage } from '@/lib/domain/week-page.ts'
import form from '../../parts/form.module.css'
import { Key } from '../../parts/key.tsx'
import audit from '../audit.module.css'
import { HappenedPart } from './happened-part.tsx'
import { keyOfDoing, type ReadingKey } from './keys.ts'
import { useReading } from './use-reading.ts'
import { useReadingKeys } from './use-reading-keys.ts'
import { VerdictFields } from './verdict-fields.tsx'
import css from './week.module.css'

export type VerdictDraft = { verdict: Verdict | null; truly: Truly | null; harm: Harm; note: string }

type Props = { item: ItemPage; keysOn: boolean; onMove: (step: 1 | -1) => boolean }

/** The verdict on one item, and what happened once it is given. */
export function ReadItem({ item, keysOn, onMove }: Props) {
  const newest = item.own.at(-1)
  const [draft, setDraft] = useState<VerdictDraft>({
    verdict: newest?.verdict ?? null,
    truly: newest?.truly ?? null,
    harm: newest?.harm ?? 'unknown',
    note: newest?.note ?? '',
  })
  const [isMissing, setMissing] = useState(false)
  // One key for one verdict: a second press stores nothing twice, a changed one is a new verdict.
  const [sent, setSent] = useState({ key: newKey(), draft })
  const note = useRef<HTMLTextAreaElement>(null)
  const reading = useReading(item.week)
  const happened = reading.happenedTo(item.item)
  // A reading that is still to be given blind must know nothing of what happened.
  const mayOpen = newest !== undefined && item.task !== 'read-again' && item.notBefore === null
  const change = (part: Partial<VerdictDraft>) => {
    setDraft((before) => ({ ...before, ...part }))
    setMissing(false)
  }
  const save = () => {
    const { verdict, truly, harm, note: words } = draft
    setMissing(verdict === null)
    if (verdict === null || item.reading === null) return
    const key = sent.draft === draft ? sent.key : newKey()
    setSent({ key, draft })
    reading.save(
      { item: item.item, reading: item.reading, verdict, truly, harm, note: words.trim() || null },
      key,
    )
  }
  const act = (key: ReadingKey): boolean => {
    if (key.does === 'next' || key.does === 'previous') return onMove(key.does === 'next' ? 1 : -1)
    if (key.does === 'open') {
      if (mayOpen) reading.open(item.item)
      return mayOpen
    }
    if (item.reading === null) return false
    if (key.does === 'verdict') change({ verdict: key.verdict })
    if (key.does === 'harm') change({ harm: key.harm })
    if (key.does === 'truly') {
      if (!item.choices.includes(key.truly)) return false
      change({ truly: draft.truly === key.truly ? null : key.truly })
    }
    if (key.does === 'note') note.current?.focus()
    if (key.does === 'save') save()
    return true
  }
  useReadingKeys(keysOn, act)

  return (
    <section aria-labelledby="verdict" className={css.verdict}>
      <h2 id="verdict">{titleOf(item)}</h2>
      {item.reading === 3 ? <ToSettle item={item} /> : null}
      {item.reading === null ? (
        <p>Somebody else reads this one: there is nothing for you to say.</p>
      ) : (
        <form
          noValidate
          onSubmit={(event) => {
            event.preventDefault()
            save()
          }}
        >
          <VerdictFields
            draft={draft}
            choices={item.choices}
            keysOn={keysOn}
            isMissing={isMissing}
            noteRef={note}
            onChange={change}
          />
          {reading.fault ? (
            <p role="alert" className={form.fault}>
              {[reading.fault.text, ...reading.fault.fields.map(({ message }) => message)].join(' ')}
            </p>
          ) : null}
          <p className={audit.tools}>
            <button type="submit" data-main aria-disabled={reading.isSaving} aria-keyshortcuts="Enter">
              {newest ? 'Change the verdict' : 'Give the verdict'} <Key on={keysOn}>{keyOfDoing('save')}</Key>
            </button>
            {mayOpen && !happened ? (
              <button type="button" onClick={() => reading.open(item.item)} aria-keyshortcuts="O">
                What happened <Key on={keysOn}>{keyOfDoing('open')}</Key>
              </button>
            ) : null}
          </p>
        </form>
      )}
      <p role="status" className={newest ? audit.says : undefined}>
        {newest
          ? `Stored ${dayAndTime(newest.at, item.clinicZone)}: ${verdictLabels[newest.verdict].toLowerCase()}${item.own.length > 1 ? `, after ${item.own.length - 1} before it, which ${item.own.length > 2 ? 'stay' : 'stays'} on record` : ''}${newest.isOpened ? ', knowing what happened' : ''}.`
          : ''}
      </p>
      {newest && item.notBefore !== null ? (
        <p className={audit.quiet}>
          You read this one again, blind, from {dayAndTime(item.notBefore, item.clinicZone)} on: what happened
          opens after that.
        </p>
      ) : null}
      {happened ? <HappenedPart happened={happened} zone={item.clinicZone} /> : null}
    </section>
  )
}

function titleOf({ task, reading, own }: ItemPage): string {
  if (reading === 3) return 'Settle the two readings'
  if (task === 'read-again') return 'Second reading: should somebody have called?'
  return own.length > 0 ? 'Your verdict' : 'Should somebody have called?'
}

/** The two verdicts that differ, without names. */
function ToSettle({ item }: { item: ItemPage }) {
  return (
    <>
      <ul className={css.lines}>
        {item.toSettle.map(({ reading, verdict, truly, harm, note }) => (
          <li key={reading}>
            {reading === 1 ? 'First' : 'Second'} reading: <b>{verdictLabels[verdict]}</b>
            {truly ? `, ${trulyLabels[truly].toLowerCase()}` : ''}, {harmLabels[harm].toLowerCase()}
            {note ? `. ${note}` : ''}
          </li>
        ))}
      </ul>
      {item.settlesOwn ? (
        <p className={audit.quiet}>
          There is no third reader in this clinic, so you settle a reading of your own; that stays on record.
        </p>
      ) : null}
    </>
  )
}
