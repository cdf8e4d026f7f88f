import { cautions } from '@/lib/domain/project.ts'
import css from './cautions.module.css'

/** Stands on every clinical screen and print. */
export function Cautions() {
  return (
    <footer className={css.cautions}>
      <p>{cautions}</p>
    </footer>
  )
}
