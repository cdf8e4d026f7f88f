import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { RuleSetInList } from '@/lib/domain/rule-draft.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import css from './rules.module.css'
import { amount, thresholdText } from './threshold-words.ts'
import { setStateLabels, spanText } from './words.ts'

type Props = { sets: readonly RuleSetInList[]; zone: string; onBack: (set: RuleSetInList) => void }

/** Every rule set with its hash, its time, who set it and why, the newest first. */
export function SetsTable({ sets, zone, onBack }: Props) {
  return (
    <Scroll label="Rule sets">
      <table className={audit.table}>
        <thead>
          <tr>
            <th scope="col">Version</th>
            <th scope="col">In force</th>
            <th scope="col">Set by</th>
            <th scope="col">Otherwise than the set that ships</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {sets.map((set) => (
            <OneSet key={set.id} set={set} zone={zone} onBack={onBack} />
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

function OneSet({ set, zone, onBack }: { set: RuleSetInList } & Omit<Props, 'sets'>) {
  const { version, hash, state, by, recordedAt, why, changes, takenBack } = set
  return (
    <tr data-now={state === 'in-force' ? '' : undefined}>
      <th scope="row">
        {version}
        <p className={css.hash}>SHA-256 {hash}</p>
      </th>
      <td>
        <b>{setStateLabels[state]}</b>
        <p>{spanText(set, zone)}</p>
        {takenBack ? (
          <p className={audit.quiet}>
            {takenBack.by}, {dateAndTime(takenBack.at, zone)}
            {takenBack.why ? `: ${takenBack.why}` : ''}
          </p>
        ) : null}
      </td>
      <td>
        {by === null || recordedAt === null
          ? 'Ships with the program'
          : `${by}, ${dateAndTime(recordedAt, zone)}`}
        {why ? <p>{why}</p> : null}
      </td>
      <td>
        {changes.length === 0 ? 'In nothing' : null}
        <ul>
          {changes.map(({ name, unit, from, to }) => (
            <li key={name}>
              {thresholdText(name)} <b>{amount(to, unit)}</b>, not {from}
            </li>
          ))}
        </ul>
      </td>
      <td>
        {set.canReturn ? (
          <button type="button" onClick={() => onBack(set)}>
            {state === 'in-force' ? 'Keep this one' : 'Go back to this'}
            <span className="for-reader">: {version}</span>
          </button>
        ) : null}
      </td>
    </tr>
  )
}
