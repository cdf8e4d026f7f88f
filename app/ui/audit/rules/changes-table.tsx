import type { DraftPage } from '@/lib/domain/rule-draft.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import css from './rules.module.css'
import { amount, thresholdText } from './threshold-words.ts'

/** What a draft changes, beside the set that it was written on and, where that is another, the one that stands. */
export function ChangesTable({ page }: { page: DraftPage }) {
  const { changes, thresholds, writtenOn, base, version, isStale } = page
  const sourceOf = (name: string) => thresholds.find((one) => one.name === name)
  return (
    <Scroll label="What it changes">
      <table className={audit.table}>
        <caption>What it changes</caption>
        <thead>
          <tr>
            <th scope="col">Threshold</th>
            <th scope="col">{writtenOn}, as written on</th>
            {isStale ? <th scope="col">{base.version}, stands now</th> : null}
            <th scope="col">{version}</th>
            <th scope="col">Range</th>
          </tr>
        </thead>
        <tbody>
          {changes.map(({ name, unit, base: before, inForce, value }) => {
            const range = sourceOf(name)
            return (
              <tr key={name}>
                <th scope="row">
                  {thresholdText(name)}
                  <p className={audit.quiet}>{name}</p>
                </th>
                <td>{amount(before, unit)}</td>
                {isStale ? (
                  <td className={inForce === before ? undefined : css.changed}>{amount(inForce, unit)}</td>
                ) : null}
                <td className={value === before ? undefined : css.changed}>{amount(value, unit)}</td>
                <td>{range ? `${range.min} to ${range.max}` : ''}</td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </Scroll>
  )
}
