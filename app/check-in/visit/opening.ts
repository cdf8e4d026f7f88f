import type { CheckInView } from '@/lib/domain/check-in.ts'
import { type Draft, isBegun } from '../answers/draft.ts'
import type { Answer } from '../keep/doors.ts'
import type { Bringing } from './bringing.ts'
import { takeUp } from './fresh-view.ts'
import { unsent } from './line.ts'
import type { Opened } from './link.ts'
import type { Phase } from './phase.ts'
import { forgetReceipt, shownReceipt } from './shown-receipt.ts'
import type { Stage } from './stage.ts'

/** A draft that rested longer than this is asked about before it goes on. */
const RESTED_MS = 2 * 3_600_000
export const hasRested = (draft: Draft, now: Date) => now.getTime() - Date.parse(draft.savedAt) > RESTED_MS

/** Opens the link: shows what the phone kept at once, and what the clinic answers as soon as it does. */
export function makeOpening(stage: Stage, { bring }: Bringing) {
  const { world, state, set, show } = stage
  const { link, clock } = world

  /** The first screen for a person: what waits, the receipt that stood there, the draft, or a new form. */
  async function meet(view: CheckInView): Promise<void> {
    const keep = await stage.keep()
    const person = view.patient.id
    const [waits, draft] = await Promise.all([keep.waitingOf(person), keep.draftOf(person)])
    const shown = shownReceipt(person)
    const last = waits.at(-1)
    const resting = draft && isBegun(draft) ? draft : null
    const phase = (): Phase => {
      if (last) return { name: 'waiting', key: last.key, why: unsent(waits).length ? 'sending' : 'refused' }
      if (shown) return { name: 'receipt', receipt: shown.receipt, body: shown.body }
      if (!resting) return stage.emptyForm(view)
      return hasRested(resting, clock.now())
        ? { name: 'resume', draft: resting, instead: null }
        : { name: 'form', draft: resting, refused: null }
    }
    set({ view, waits, phase: phase() })
  }

  async function open(): Promise<void> {
    const keep = await stage.keep()
    set({ phase: { name: 'opening' }, view: null, news: null })
    const byLink = await link.take()
    if (byLink) forgetReceipt()
    const hash = link.hash()
    const kept = byLink ? hash && (await keep.viewByLink(hash)) : await keep.currentView()
    if (kept) await meet(kept.view)
    if ((await reach('opening')) !== 'link-ended') return
    if (kept) await keep.endView(kept.person)
    const waits = (await keep.allWaiting()).length
    set({ view: null, waits: [], phase: { name: 'closed', renewable: link.canRenew(), waits } })
  }

  /** Asks the clinic for the view of now, and brings it what waits. */
  async function reach(when?: 'opening'): Promise<Opened> {
    const went = await link.open()
    const read: Answer<CheckInView> = went === 'ok' ? await world.readView() : { kind: went }
    if (read.kind === 'unreachable') {
      await notReached()
      return 'unreachable'
    }
    if (read.kind !== 'ok') {
      set({ stale: false })
      return 'link-ended'
    }
    const view = read.value
    const isSame = stage.person() === view.patient.id
    // Another tab opened somebody else's link: what is on this screen is not theirs.
    if (!isSame && state().view && when !== 'opening') return 'link-ended'
    await takeUp(stage, view)
    if (!isSame) {
      set({ stale: false })
      await meet(view)
    }
    if (unsent(state().waits).length > 0) await bring()
    return 'ok'
  }

  async function notReached(): Promise<void> {
    const { phase, view } = state()
    if (!view) return show({ name: 'unreachable', waits: (await (await stage.keep()).allWaiting()).length })
    set({ stale: true })
    if (phase.name === 'waiting' && phase.why === 'sending') show({ ...phase, why: 'unreachable' })
  }

  async function tryAgain(): Promise<void> {
    if ((await reach(state().view ? undefined : 'opening')) !== 'link-ended') return
    const { phase } = state()
    if (phase.name === 'unreachable') await open()
    if (phase.name === 'waiting') show({ ...phase, why: 'link-ended' })
  }

  /** A code that the clinic read out on the phone opens a link that is over. */
  async function renew(code: string): Promise<Opened> {
    const went = await link.renew(code)
    return went === 'ok' ? reach('opening') : went
  }

  return {
    open,
    tryAgain,
    renew,
    /** Reads the view again while the page is looked at: whether somebody has read the last report. */
    refresh: async () => void (await reach()),
  }
}
