import type { Receipt, Submission } from '@/lib/domain/submission.ts'

type Shown = { person: string; receipt: Receipt; body: Submission }

/**
 * The receipt that this tab shows, so that a reload does not take its advice away. It lives as long as the
 * tab, and goes when another report is begun.
 */
const SHELF = 'check-in-receipt'

export function showReceipt(shown: Shown): void {
  try {
    sessionStorage.setItem(SHELF, JSON.stringify(shown))
  } catch {
    // A browser that refuses storage shows the receipt until a reload.
  }
}

export function shownReceipt(person: string): Shown | null {
  try {
    const shown = JSON.parse(sessionStorage.getItem(SHELF) ?? 'null') as Shown | null
    return shown?.person === person && shown.body ? shown : null
  } catch {
    return null
  }
}

export function forgetReceipt(): void {
  try {
    sessionStorage.removeItem(SHELF)
  } catch {
    // Nothing was kept.
  }
}
