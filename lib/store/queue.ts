import { AsyncLocalStorage } from 'node:async_hooks'

/** Who holds the write queue: a transaction of ours, or the sign-in library on its own connection. */
export type Owner = 'write' | 'sign-in'

/**
 * One writer at a time in this process. SQLite waits for a lock by blocking the thread, so a second writer
 * beside an open transaction of the same process would wait for itself: everything that writes goes through here.
 */
export class WriteQueue {
  #tail: Promise<unknown> = Promise.resolve()
  readonly #inside = new AsyncLocalStorage<Owner>()

  /** Runs `work` when all before it has ended. The sign-in library may go deeper into its own turn; nobody else may. */
  exclusive<T>(owner: Owner, work: () => Promise<T>): Promise<T> {
    const held = this.#inside.getStore()
    if (held === 'sign-in' && owner === 'sign-in') return work()
    if (held) return Promise.reject(new Error(`store: ${owner} inside an open ${held} would wait for itself`))
    const turn = this.#tail.then(() => this.#inside.run(owner, work))
    this.#tail = turn.catch(() => undefined)
    return turn
  }

  /** Resolves when all that was queued by now has ended. */
  async settled(): Promise<void> {
    await this.#tail
  }
}
