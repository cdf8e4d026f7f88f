import type { Answer } from '../keep/doors.ts'

/** The token of a link whose answer is still out, for as long as the tab lives: a reload without a network keeps it. */
const SHELF = 'check-in-link'

export type Opened = 'ok' | 'unreachable' | 'link-ended'
type Exchange = (token: string) => Promise<Answer<unknown>>

/**
 * The personal link that this page was opened with. Its token leaves the address bar at once, so that it is neither
 * seen over a shoulder nor kept in the history, and is traded for a session as soon as the clinic answers.
 */
export function personalLink(
  exchange: Exchange,
  renew: (token: string, code: string) => Promise<Answer<unknown>>,
) {
  let token: string | null = null
  let pending = false
  let hash: string | null = null
  let asking: Promise<Opened> | null = null

  const traded = () => {
    pending = false
    shelve(null)
    return 'ok' as const
  }
  const trade = async (): Promise<Opened> => {
    if (!token) return 'ok'
    const answer = await exchange(token)
    if (answer.kind === 'ok') return traded()
    if (answer.kind === 'unreachable') return 'unreachable'
    pending = false
    shelve(null)
    return 'link-ended'
  }

  return {
    /** Takes the token out of the address. True when there was one, here or left over from before a reload. */
    async take(): Promise<boolean> {
      const given = window.location.hash.slice(1)
      if (given) window.history.replaceState(null, '', window.location.pathname + window.location.search)
      const found = given || shelved()
      if (!found) return false
      token = found
      pending = true
      asking = null
      shelve(token)
      hash = await sha256(token)
      return true
    },
    /** SHA-256 of the token, by which the phone knows whose link it is. */
    hash: () => hash,
    /** Trades the token, unless that was done; asked twice at once, it asks once. */
    open(): Promise<Opened> {
      if (!pending) return Promise.resolve('ok')
      asking ??= trade().finally(() => {
        asking = null
      })
      return asking
    },
    canRenew: () => token !== null,
    /** A link that is over, opened again by a code. `link-ended` when the code is not right. */
    async renew(code: string): Promise<Opened> {
      if (!token) return 'link-ended'
      const answer = await renew(token, code)
      if (answer.kind === 'ok') return traded()
      return answer.kind === 'unreachable' ? 'unreachable' : 'link-ended'
    },
    forget(): void {
      token = null
      hash = null
      pending = false
      shelve(null)
    },
  }
}

async function sha256(text: string): Promise<string | null> {
  try {
    const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text))
    return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('')
  } catch {
    return null // not a secure origin: such a link needs the network each time
  }
}

function shelve(token: string | null): void {
  try {
    if (token) sessionStorage.setItem(SHELF, token)
    else sessionStorage.removeItem(SHELF)
  } catch {
    // Held in memory alone.
  }
}

function shelved(): string | null {
  try {
    return sessionStorage.getItem(SHELF)
  } catch {
    return null
  }
}

export type PersonalLink = ReturnType<typeof personalLink>
