import type { Tx } from '../../store/index.ts'

type Item = {
  readonly at: number
  readonly order: number
  readonly run: (tx: Tx, now: Date) => Promise<void>
}

/**
 * What is to happen, taken out in the order of time; what falls on one instant, in the order in which it was added.
 * What would come after the end is for whoever opens the worklist, and is left out.
 */
export class Agenda {
  private readonly items: Item[] = []
  private added = 0

  constructor(private readonly endsAt: number) {}

  get size(): number {
    return this.items.length
  }

  /** When the next falls, in ms since the epoch; null: nothing is left. */
  get nextAt(): number | null {
    return this.items.at(-1)?.at ?? null
  }

  add(at: number, run: Item['run']): void {
    if (at > this.endsAt) return
    const item = { at, order: this.added++, run }
    let low = 0
    for (let high = this.items.length; low < high; ) {
      const middle = (low + high) >> 1
      const other = this.items[middle]
      if (other && (other.at > at || (other.at === at && other.order > item.order))) low = middle + 1
      else high = middle
    }
    this.items.splice(low, 0, item)
  }

  /** The earliest; the list is kept latest first, so that taking is cheap. */
  take(): Item | undefined {
    return this.items.pop()
  }
}
