import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Receipt } from '@/lib/domain/submission.ts'
import { newDraft } from '../answers/draft.ts'
import type { Received } from '../keep/deliver.ts'
import type { Answer } from '../keep/doors.ts'
import type { Keep, Waiting } from '../keep/keep.ts'
import type { PersonalLink } from './link.ts'
import type { Phase } from './phase.ts'
import type { PhoneClock } from './phone-clock.ts'

/** What a visit needs of the phone and of the clinic's computer. */
export type World = {
  openKeep: () => Promise<Keep>
  link: PersonalLink
  readView: () => Promise<Answer<CheckInView>>
  send: (report: Waiting) => Promise<Answer<Receipt>>
  leave: () => Promise<Answer<unknown>>
  /** Whatever this phone holds beside the keep. */
  wipe: () => Promise<void>
  clock: PhoneClock
  newKey: () => string
}

export type VisitState = {
  phase: Phase
  view: CheckInView | null
  /** The view is from an earlier visit, and the clinic cannot be reached now. */
  stale: boolean
  /** The reports of this person that wait, refused ones among them. */
  waits: Waiting[]
  /** Receipts of this visit, by the key of the report. */
  receipts: Readonly<Record<string, Receipt>>
  /** The last report that went by itself, while the person did something else. */
  news: Received | null
  /** False when the browser refuses its storage. */
  lasting: boolean
}

const atFirst: VisitState = {
  phase: { name: 'opening' },
  view: null,
  stale: false,
  waits: [],
  receipts: {},
  news: null,
  lasting: true,
}

/** What is on screen, and the keep behind it: the parts of a visit act through this. */
export function makeStage(world: World) {
  let state = atFirst
  const listeners = new Set<() => void>()
  let opened: Promise<Keep> | null = null

  const set = (change: Partial<VisitState>) => {
    state = { ...state, ...change }
    for (const listener of listeners) listener()
  }
  const keep = async (): Promise<Keep> => {
    opened ??= world.openKeep()
    const found = await opened
    if (found.lasting !== state.lasting) set({ lasting: found.lasting })
    return found
  }
  const person = () => state.view?.patient.id ?? ''
  const instant = () => world.clock.now().toISOString()

  return {
    world,
    state: () => state,
    set,
    show: (phase: Phase) => set({ phase }),
    subscribe(listener: () => void) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    keep,
    useInstead: (other: Promise<Keep>) => {
      opened = other
    },
    person,
    instant,
    readWaits: async () => set({ waits: await (await keep()).waitingOf(person()) }),
    emptyForm: (view: CheckInView): Phase => ({
      name: 'form',
      draft: newDraft(view, world.newKey(), instant()),
      refused: null,
    }),
  }
}
export type Stage = ReturnType<typeof makeStage>
