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
      {above}
      <h1 id="screen" tabIndex={-1}>
        {title}
      </h1>
      {children}
    </section>
  )
}
