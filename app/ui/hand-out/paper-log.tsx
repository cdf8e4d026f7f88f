import type { HandOut, HandOutDrain } from '@/lib/domain/hand-out.ts'
import { fullDateText } from '@/lib/domain/hand-out-lines.ts'
import type { HandOutText } from '@/lib/domain/texts/hand-out.ts'
import css from './hand-out.module.css'

/** Lines of one log: a week of two a day, and four to spare. */
const LINES = Array.from({ length: 18 }, (_, i) => i)
/** More drains than this do not fit beside each other. */
export const DRAINS_A_LOG = 3

type Numbered = { drain: HandOutDrain; number: number }

/** A log to be torn off and written by hand, a block of columns for each drain. */
export function PaperLog({
  handOut,
  drains,
  text,
}: {
  handOut: HandOut
  drains: readonly Numbered[]
  text: HandOutText
}) {
  const { patient, clinic } = handOut
  const { log } = text
  return (
    <section className={css.log} aria-label={log.title}>
      <p className={css.cut} aria-hidden="true">
        {log.cut}
      </p>
      <h2>{log.title}</h2>
      <p>
        <b>{patient.name}</b> · {text.born(fullDateText(patient.birthDate, text))} · {clinic.name}{' '}
        <bdi dir="ltr">{clinic.phone}</bdi>
      </p>
      <p className={css.fine}>
        {log.about} {log.looks}
      </p>
      <table>
        <thead>
          <tr>
            <th rowSpan={2} scope="col">
              {log.date}
            </th>
            <th rowSpan={2} scope="col">
              {log.time}
            </th>
            {drains.map(({ drain, number }) => (
              <th key={drain.id} colSpan={4} scope="colgroup" className={css.block}>
                {number}. {drain.label}
              </th>
            ))}
            <th rowSpan={2} scope="col" className={css.block}>
              {log.temperature}
            </th>
          </tr>
          <tr>
            {drains.flatMap(({ drain }) =>
              [log.ml, log.look, log.flush, log.dressing].map((name, i) => (
                <th key={`${drain.id} ${name}`} scope="col" className={i === 0 ? css.block : undefined}>
                  {name}
                </th>
              )),
            )}
          </tr>
        </thead>
        <tbody>
          {LINES.map((line) => (
            <tr key={line}>
              <td />
              <td />
              {drains.flatMap(({ drain }) =>
                ['ml', 'look', 'flush', 'dressing'].map((column) => (
                  <td key={`${drain.id} ${column}`} className={column === 'ml' ? css.block : undefined} />
                )),
              )}
              <td className={css.block} />
            </tr>
          ))}
        </tbody>
      </table>
      <p className={css.fine}>
        {text.cautions} {text.unread}
      </p>
    </section>
  )
}
