import type { ReactNode } from 'react'

/** The heading at which each screen begins; focus comes to it when the screen changes. */
export function Screen({
  title,
  above,
  children,
}: {
  title: string
  above?: ReactNode
  children: ReactNode
}) {
  return (
    <section className="screen">
      {above ? <div id="above-screen">{above}</div> : null}
      {/* Whoever hears the page is told how far they are when the heading takes the focus. */}
      <h1 id="screen" tabIndex={-1} aria-describedby={above ? 'above-screen' : undefined}>
        {title}
      </h1>
      {children}
    </section>
  )
}
