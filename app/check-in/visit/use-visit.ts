import { useCallback, useEffect, useRef, useState } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import { type Draft, isBegun, newDraft } from '../answers/draft.ts'
import { faultsAtFields } from '../answers/faults.ts'
import { submissionOf } from '../answers/submission.ts'
import { deliver } from '../keep/deliver.ts'
import { exchangeLink, readView, sendReport } from '../keep/doors.ts'
import type { Keep, Waiting } from '../keep/keep.ts'
import { memoryKeep } from '../keep/memory-keep.ts'
import { newKey } from './new-key.ts'
import { withOwnAdvice } from './own-advice.ts'
import type { Phase } from './phase.ts'
import { phoneClock } from './phone-clock.ts'
import { forgetReceipt, shownReceipt, showReceipt } from './shown-receipt.ts'
import { useRetry } from './use-retry.ts'

/** A draft that rested longer than this is asked about before it goes on. */
const RESTED_MS = 2 * 3_600_000
const hasRested = (draft: Draft, now: Date) => now.getTime() - Date.parse(draft.savedAt) > RESTED_MS

/**
 * One visit to the check-in page: opens the link, finds what the phone kept, takes the confirmed report and
 * brings it to the clinic, however long that takes.
 */
export function useVisit() {
  const [phase, setPhase] = useState<Phase>({ name: 'opening' })
  const [clock] = useState(phoneClock)
  const keepRef = useRef<Keep | null>(null)
  const bringing = useRef(false)

  const keepOf = useCallback(async (): Promise<Keep> => {
    // Loaded here, since the server that renders the page has no such database.
    keepRef.current ??= await (await import('../keep/browser-keep.ts')).browserKeep()
    return keepRef.current
  }, [])

  const fresh = useCallback(
    (view: CheckInView) => newDraft(view, newKey(), clock.now().toISOString()),
    [clock],
  )

  /** Sends what waits for this person, and shows how it went. */
  const bring = useCallback(
    async (view: CheckInView, waiting: Waiting) => {
      if (bringing.current) return
      bringing.current = true
      const keep = await keepOf()
      const person = view.patient.id
      const went = await deliver(keep, person, sendReport, newKey).finally(() => {
        bringing.current = false
      })
      if (went.kind === 'received') {
        const receipt = withOwnAdvice(went.receipt, went.report.body, view)
        showReceipt({ person, receipt })
        setPhase({ name: 'receipt', view, receipt })
      } else if (went.kind === 'refused') {
        const faults = faultsAtFields(went.problem, went.report.body)
        const draft = (await keep.draftOf(person)) ?? fresh(view)
        setPhase({ name: 'form', view, draft: { ...draft, step: faults[0]?.step ?? draft.step }, faults })
      } else if (went.kind === 'nothing-waits') {
        const sent = await keep.sentBy(person)
        if (sent?.key === waiting.key) setPhase({ name: 'sent-elsewhere', view, sent })
        else setPhase({ name: 'form', view, draft: fresh(view), faults: [] })
      } else {
        setPhase({ name: 'waiting', view, report: went.report, why: went.kind })
      }
    },
    [fresh, keepOf],
  )

  const open = useCallback(async () => {
    const keep = await keepOf()
    const unreachable = async () => setPhase({ name: 'unreachable', waits: await keep.countWaiting() })
    const token = window.location.hash.slice(1)
    if (token) {
      const exchanged = await exchangeLink(token)
      if (exchanged.kind === 'unreachable') return unreachable()
      // Out of the address bar, so that it is neither seen over a shoulder nor kept in the history.
      window.history.replaceState(null, '', window.location.pathname)
      forgetReceipt()
      if (exchanged.kind !== 'ok') return setPhase({ name: 'closed' })
    }
    const read = await readView()
    if (read.kind === 'unreachable') return unreachable()
    if (read.kind !== 'ok') return setPhase({ name: 'closed' })
    const view = read.value
    clock.setBy(view.asOf)
    const [report] = await keep.waitingOf(view.patient.id)
    if (report) {
      setPhase({ name: 'waiting', view, report, why: 'sending' })
      return bring(view, report)
    }
    const receipt = shownReceipt(view.patient.id)
    if (receipt) return setPhase({ name: 'receipt', view, receipt })
    const draft = await keep.draftOf(view.patient.id)
    if (!draft || !isBegun(draft)) return setPhase({ name: 'form', view, draft: fresh(view), faults: [] })
    setPhase(
      hasRested(draft, clock.now())
        ? { name: 'resume', view, draft }
        : { name: 'form', view, draft, faults: [] },
    )
  }, [bring, clock, fresh, keepOf])

  const opened = useRef(false)
  useEffect(() => {
    if (!opened.current) void open()
    opened.current = true
    // The link tapped again in the same tab changes the fragment only.
    const again = () => {
      if (window.location.hash.length > 1) void open()
    }
    window.addEventListener('hashchange', again)
    return () => window.removeEventListener('hashchange', again)
  }, [open])

  const tryAgain = useCallback(() => {
    if (phase.name === 'unreachable') void open()
    if (phase.name === 'waiting') void bring(phase.view, phase.report)
  }, [bring, open, phase])
  useRetry(
    phase.name === 'unreachable' || (phase.name === 'waiting' && phase.why === 'unreachable'),
    tryAgain,
  )

  /** Keeps the confirmed report first, then sends it. */
  const send = useCallback(
    async (view: CheckInView, draft: Draft) => {
      const confirmedAt = clock.now().toISOString()
      const report = {
        key: draft.key,
        person: draft.person,
        body: submissionOf(draft, view, confirmedAt),
        confirmedAt,
      }
      setPhase({ name: 'waiting', view, report, why: 'sending' })
      try {
        await (await keepOf()).confirm(report)
      } catch {
        keepRef.current = memoryKeep()
        await keepRef.current.saveDraft(draft)
        await keepRef.current.confirm(report)
      }
      await bring(view, report)
    },
    [bring, clock, keepOf],
  )

  const saveDraft = useCallback(
    async (draft: Draft) => {
      if (isBegun(draft)) await (await keepOf()).saveDraft(draft).catch(() => undefined)
    },
    [keepOf],
  )

  /** Looked at again: another tab may have gone on with this draft or sent it, or it rested for long. */
  const catchUp = useCallback(
    async (view: CheckInView, draft: Draft) => {
      const keep = await keepOf()
      const sent = await keep.sentBy(draft.person)
      if (sent?.key === draft.key) return setPhase({ name: 'sent-elsewhere', view, sent })
      const report = (await keep.waitingOf(draft.person)).find(({ key }) => key === draft.key)
      if (report) return setPhase({ name: 'waiting', view, report, why: 'unreachable' })
      const kept = await keep.draftOf(draft.person)
      if (kept && kept.savedAt > draft.savedAt)
        return setPhase({ name: 'form', view, draft: kept, faults: [] })
      if (isBegun(draft) && hasRested(draft, clock.now())) setPhase({ name: 'resume', view, draft })
    },
    [clock, keepOf],
  )

  const goOn = useCallback(
    (view: CheckInView, draft: Draft) => setPhase({ name: 'form', view, draft, faults: [] }),
    [],
  )

  const startNew = useCallback(
    async (view: CheckInView) => {
      forgetReceipt()
      await (await keepOf()).dropDraft(view.patient.id)
      setPhase({ name: 'form', view, draft: fresh(view), faults: [] })
    },
    [fresh, keepOf],
  )

  return {
    phase,
    clock,
    send,
    saveDraft,
    catchUp,
    goOn,
    startNew,
    tryAgain,
    lasting: () => keepRef.current?.lasting !== false,
  }
}
export type Visit = ReturnType<typeof useVisit>
