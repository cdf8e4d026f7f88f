import {
  inOrder,
  type Keep,
  keptViewOf,
  latest,
  nextOrder,
  sentOf,
  type Waiting,
  wasSent,
  withoutRefused,
} from './keep.ts'
import { memoryKeep } from './memory-keep.ts'
import { openShelves, reading, SHELVES, step } from './shelves.ts'

/** The browser's own database, so that a closed tab or an empty battery loses nothing. */
export async function browserKeep(): Promise<Keep> {
  try {
    return keepIn(await openShelves())
  } catch {
    return memoryKeep()
  }
}

function keepIn(db: IDBDatabase): Keep {
  type Step = Parameters<Parameters<typeof step>[2]>[0]
  /** On the disk before it is done, so that 'kept' is true even when the battery dies now. */
  const strictly = <T>(work: (tx: Step) => Promise<T>) => step(db, 'strict', work)
  const dropDraftOf = async (tx: Step, { person, key }: Waiting) => {
    if ((await tx('drafts').get(person))?.key === key) await tx('drafts').delete(person)
  }
  return {
    lasting: true,
    draftOf: (person) => reading(db, 'drafts').get(person),
    saveDraft: (draft) =>
      step(db, 'relaxed', async (tx) => {
        const waits = await tx('waiting').get(draft.key)
        const sent = await tx('sent').get(draft.person)
        if (!waits && !wasSent(sent, draft.key)) await tx('drafts').put(draft)
      }),
    dropDraft: (person) => strictly(async (tx) => void (await tx('drafts').delete(person))),
    confirm: (report, goesOn) =>
      strictly(async (tx) => {
        const waiting = await tx('waiting').all()
        if (waiting.some(({ key }) => key === report.key)) return 'waits-already'
        if (wasSent(await tx('sent').get(report.person), report.key)) return 'sent-already'
        await tx('waiting').put({ ...report, order: report.order ?? nextOrder(waiting) })
        await dropDraftOf(tx, report)
        if (goesOn) await tx('drafts').put(goesOn)
        return 'kept'
      }),
    waitingOf: async (person) =>
      inOrder((await reading(db, 'waiting').all()).filter((report) => report.person === person)),
    allWaiting: async () => inOrder(await reading(db, 'waiting').all()),
    settle: (report, receipt) =>
      strictly(async (tx) => {
        await tx('waiting').delete(report.key)
        await dropDraftOf(tx, report)
        await tx('sent').put(sentOf(report, receipt, await tx('sent').get(report.person)))
      }),
    setAside: (report, problem) =>
      strictly(async (tx) => {
        for (const other of await tx('waiting').all()) await tx('waiting').put(withoutRefused(other, report))
        await tx('waiting').put({ ...report, problem })
      }),
    takeBack: (report, draft) =>
      strictly(async (tx) => {
        await tx('waiting').delete(report.key)
        await tx('drafts').put(draft)
      }),
    sentBy: (person) => reading(db, 'sent').get(person),
    keepView: (view, link, openedAt) =>
      step(db, 'relaxed', async (tx) => {
        const earlier = await tx('views').get(view.patient.id)
        await tx('views').put(keptViewOf(view, link, openedAt, earlier))
      }),
    viewByLink: async (link) => (await reading(db, 'views').all()).find(({ links }) => links.includes(link)),
    currentView: async () => latest(await reading(db, 'views').all()),
    endView: (person) => strictly(async (tx) => void (await tx('views').delete(person))),
    forget: () =>
      strictly(async (tx) => {
        for (const shelf of SHELVES) await tx(shelf).clear()
      }),
  }
}
