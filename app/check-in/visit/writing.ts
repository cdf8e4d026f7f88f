import type { CheckInView, OwnReport } from '@/lib/domain/check-in.ts'
import { type Draft, isBegun } from '../answers/draft.ts'
import { type Waiting, wasSent } from '../keep/keep.ts'
import type { Bringing } from './bringing.ts'
import { unsent } from './line.ts'
import { hasRested } from './opening.ts'
import type { Phase } from './phase.ts'
import { forgetReceipt } from './shown-receipt.ts'
import type { Stage } from './stage.ts'
import { untilLoaded } from './until-loaded.ts'

/** Which form is on screen: a new one, one that rested, an earlier entry that is changed; and the end of them all. */
export function makeWriting(stage: Stage, { takeBack }: Bringing) {
  const { world, state, set, show } = stage

  async function saveDraft(draft: Draft): Promise<void> {
    if (isBegun(draft)) await (await stage.keep()).saveDraft(draft).catch(() => undefined)
  }

  /** Looked at again: another tab may have gone on with this draft or sent it, or it rested for long. */
  async function catchUp(_view: CheckInView, draft: Draft): Promise<void> {
    const keep = await stage.keep()
    await stage.readWaits()
    const sent = await keep.sentBy(draft.person)
    if (sent && wasSent(sent, draft.key)) return show({ name: 'sent-elsewhere', sent })
    if (state().waits.some(({ key }) => key === draft.key))
      return show({ name: 'waiting', key: draft.key, why: 'unreachable' })
    const kept = await keep.draftOf(draft.person)
    if (kept && kept.savedAt > draft.savedAt) return goOn(kept)
    if (isBegun(draft) && hasRested(draft, world.clock.now())) show({ name: 'resume', draft, instead: null })
  }

  /** Back to the screen before. A form goes on as it was kept: more was answered than when it was first shown. */
  async function back(to: Phase): Promise<void> {
    if (to.name !== 'form') return show(to)
    const kept = await (await stage.keep()).draftOf(to.draft.person)
    show(kept?.key === to.draft.key ? { name: 'form', draft: kept, refused: null } : to)
  }

  const goOn = (draft: Draft) => show({ name: 'form', draft, refused: null })

  async function startNew(): Promise<void> {
    forgetReceipt()
    const { view } = state()
    if (!view) return
    await (await stage.keep()).dropDraft(view.patient.id)
    set({ news: null, phase: stage.emptyForm(view) })
  }

  const begunDraft = async (): Promise<Draft | null> => {
    const draft = await (await stage.keep()).draftOf(stage.person())
    return draft && isBegun(draft) ? draft : null
  }

  /** Another report beside what waits; a draft that was begun before is asked about first. */
  async function another(): Promise<void> {
    const draft = await begunDraft()
    if (draft) show({ name: 'resume', draft, instead: null })
    else await startNew()
  }

  /** Begins to change an earlier entry; a draft that was begun before is asked about first. */
  async function change(entry: OwnReport | Waiting): Promise<void> {
    const { view } = state()
    if (!view) return
    if ('problem' in entry && entry.problem) return takeBack(entry)
    const begun = await begunDraft()
    // The form that a danger went ahead of is still open: that is where it is changed.
    if (begun && 'key' in entry && begun.dangerSentKey === entry.key) return goOn(begun)
    const { draftFromReport, draftFromWaiting } = await untilLoaded(() => import('./corrections.ts'))
    const draft =
      'report' in entry
        ? draftFromReport(entry, view, world.newKey(), stage.instant())
        : draftFromWaiting(entry, view, world.newKey(), stage.instant())
    if (begun) return show({ name: 'resume', draft: begun, instead: draft })
    startInstead(draft)
  }

  function startInstead(draft: Draft): void {
    forgetReceipt()
    set({ news: null, phase: { name: 'form', draft, refused: null } })
  }

  /** What waits, in plain sight. */
  async function showWaiting(): Promise<void> {
    await stage.readWaits()
    const { waits } = state()
    const why = unsent(waits).length > 0 ? 'unreachable' : 'refused'
    show({ name: 'waiting', key: waits.at(-1)?.key ?? '', why })
  }

  async function askToForget(): Promise<void> {
    const waits = (await (await stage.keep()).allWaiting()).length
    show({ name: 'forget', back: state().phase, waits, failed: false })
  }

  /** Everything that this phone holds, after its session: where the network is missing nothing is forgotten by half. */
  async function forget(): Promise<void> {
    const { phase } = state()
    const left = await world.leave()
    if (left.kind === 'unreachable' || left.kind === 'refused')
      return phase.name === 'forget' ? show({ ...phase, failed: true }) : undefined
    await (await stage.keep()).forget()
    world.link.forget()
    await world.wipe()
    set({ view: null, waits: [], receipts: {}, news: null, stale: false, phase: { name: 'forgotten' } })
  }

  return {
    saveDraft,
    catchUp,
    back,
    goOn,
    startNew,
    another,
    change,
    startInstead,
    showWaiting,
    askToForget,
    forget,
  }
}
