import type { CheckInView } from '@/lib/domain/check-in.ts'
import { type Draft, isBegun } from '../answers/draft.ts'
import { type Delivery, deliver, type Received } from '../keep/deliver.ts'
import type { Waiting } from '../keep/keep.ts'
import { readAgain } from './fresh-view.ts'
import { asWaiting, saysTheSame, unsent } from './line.ts'
import { showReceipt } from './shown-receipt.ts'
import type { Stage } from './stage.ts'
import { untilLoaded } from './until-loaded.ts'

/** Takes confirmed reports into the line and brings them to the clinic, however long that takes. */
export function makeBringing(stage: Stage) {
  const { world, state, set, show } = stage
  /** Reports of a danger that went ahead of their forms, in this visit. */
  const ahead = new Map<string, Waiting>()
  let under: Promise<void> | null = null
  let more = false

  /** Sends what waits. Asked while it is under way, it looks once more at the end. */
  function bring(): Promise<void> {
    more = true
    under ??= (async () => {
      while (more) {
        more = false
        await bringOnce()
      }
    })().finally(() => {
      under = null
    })
    return under
  }

  async function bringOnce(): Promise<void> {
    const keep = await stage.keep()
    const person = stage.person()
    const went = await world.link.open()
    const [first] = unsent(await keep.waitingOf(person))
    const delivery: Delivery =
      went === 'ok'
        ? await deliver(keep, person, world.send)
        : { received: [], refused: [], stopped: first ? { report: first, why: went } : null }
    if (person !== stage.person()) return
    await tell(delivery)
    if (delivery.received.length > 0) await readAgain(stage)
  }

  /** Shows how it went: on the screen that waits for it, else as news above whatever the person is doing. */
  async function tell({ received, refused, stopped }: Delivery): Promise<void> {
    const keep = await stage.keep()
    const waits = await keep.waitingOf(stage.person())
    const receipts = { ...state().receipts }
    for (const { report, receipt } of received) receipts[report.key] = receipt
    set({ waits, receipts, stale: stopped?.why === 'unreachable' })
    const { phase, view } = state()
    if (!view) return
    const last = received.at(-1)
    if (phase.name !== 'waiting') {
      // Of a danger that went ahead of the form its own screen tells.
      const news = received.findLast(({ report }) => !ahead.has(report.key))
      return news ? set({ news }) : undefined
    }

    const mine = refused.find(({ report }) => report.key === phase.key) ?? refused.at(0)
    if (mine && !stopped && !(await isBusy())) return takeBack(mine.report, mine.problem)
    if (unsent(waits).length > 0) return show({ ...phase, why: stopped?.why ?? 'sending' })
    if (waits.length > 0) return show({ ...phase, why: 'refused' })
    if (last) return showReceived(last)
    const sent = await keep.sentBy(stage.person())
    return show(sent?.key === phase.key ? { name: 'sent-elsewhere', sent } : stage.emptyForm(view))
  }

  function showReceived({ report, receipt }: Received): void {
    showReceipt({ person: report.person, receipt, body: report.body })
    set({ news: null, phase: { name: 'receipt', receipt, body: report.body } })
  }

  const isBusy = async () => {
    const draft = await (await stage.keep()).draftOf(stage.person())
    return draft !== undefined && isBegun(draft)
  }

  /** What the clinic refused becomes a form again, with its reasons at the questions. */
  async function takeBack(report: Waiting, problem = report.problem): Promise<void> {
    const { view } = state()
    if (!view || !problem) return
    const { draftFromRefused } = await untilLoaded(() => import('./corrections.ts'))
    const draft = draftFromRefused(report, view, world.newKey(), stage.instant())
    await (await stage.keep()).takeBack(report, draft)
    await stage.readWaits()
    show({ name: 'form', draft, refused: { problem, body: report.body } })
  }

  /** Into the line, on the disk before anything else. Where the disk refuses, the open page holds it. */
  async function confirm(report: Waiting, goesOn?: Draft): Promise<void> {
    const keep = await stage.keep()
    try {
      await keep.confirm(report, goesOn)
    } catch {
      const { memoryKeepFrom } = await untilLoaded(() => import('../keep/memory-keep.ts'))
      stage.useInstead(memoryKeepFrom(keep))
      await (await stage.keep()).confirm(report, goesOn)
    }
    await stage.readWaits()
  }

  /** The confirmed report. Where a danger went ahead of it and nothing was added since, that one is the report. */
  async function send(view: CheckInView, draft: Draft): Promise<void> {
    const report = asWaiting(draft, view, stage.instant())
    const told = draft.dangerSentKey ? ahead.get(draft.dangerSentKey) : undefined
    const same = told && saysTheSame(told.body, report.body) ? told : null
    if (same) await (await stage.keep()).dropDraft(draft.person)
    const receipt = same && state().receipts[same.key]
    if (same && receipt) return showReceived({ report: same, receipt })
    show({ name: 'waiting', key: (same ?? report).key, why: 'sending' })
    if (!same) await confirm(report)
    await bring()
  }

  /**
   * A danger is told at once with what was filled in so far, as a report of its own; what the form becomes corrects it.
   * Answers with the key to note in the draft as `dangerSentKey`, which is kept in the same step as the report.
   */
  function sendDanger(view: CheckInView, draft: Draft): string {
    const key = world.newKey()
    const report = asWaiting({ ...draft, key }, view, stage.instant())
    ahead.set(key, report)
    void confirm(report, { ...draft, dangerSentKey: key, savedAt: stage.instant() }).then(bring)
    return key
  }

  return { bring, send, sendDanger, takeBack }
}
export type Bringing = ReturnType<typeof makeBringing>
