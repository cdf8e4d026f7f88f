import type { ReactNode } from 'react'
import { PROJECT } from '@/lib/domain/project.ts'
import { Cautions } from '../parts/cautions.tsx'
import css from './door.module.css'

/** A page before sign-in: one sheet with one thing to do. */
export function Door({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className={css.door}>
      <header>
        <p className={css.name}>{PROJECT}</p>
      </header>
      <main className={css.sheet}>
        <h1>{title}</h1>
        {children}
      </main>
      <Cautions />
    </div>
  )
}
