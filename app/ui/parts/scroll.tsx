import type { ReactNode } from 'react'
import css from './scroll.module.css'

/** What may be wider than the screen, mostly a table: it scrolls sideways by itself, and the page does not. */
export function Scroll({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls sideways must be reachable by the keyboard
    <section className={css.scroll} tabIndex={0} aria-label={label}>
      {children}
    </section>
  )
}
