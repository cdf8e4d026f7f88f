import { type ReactNode, useId } from 'react'
import css from './enrol.module.css'

/** One part of the form under its heading. */
export function Part({ title, aside, children }: { title: string; aside?: ReactNode; children: ReactNode }) {
  const id = useId()
  return (
    <section className={css.part} aria-labelledby={id}>
      <div className={css.head}>
        <h2 id={id}>{title}</h2>
        {aside}
      </div>
      {children}
    </section>
  )
}
