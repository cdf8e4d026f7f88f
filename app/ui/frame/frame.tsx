import type { ReactNode } from 'react'
import { Cautions } from '../parts/cautions.tsx'
import css from './frame.module.css'

/** A staff page: head, what the room is for, and the cautions below. */
export function Frame({ header, children }: { header: ReactNode; children: ReactNode }) {
  return (
    <div className={css.frame}>
      {header}
      <main>{children}</main>
      <Cautions />
    </div>
  )
}
