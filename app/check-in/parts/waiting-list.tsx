import { sayWhen } from '../answers/times.ts'
import type { Waiting } from '../keep/keep.ts'
import { useSay } from '../words/say.tsx'

type Props = { reports: Waiting[]; now: Date; onChange: (report: Waiting) => void }

/** What waits on this phone, each with its time and a way to change it. */
export function WaitingList({ reports, now, onChange }: Props) {
  const say = useSay()
  if (reports.length === 0) return null
  return (
    <section className="state" aria-label={say('waitsList')}>
      <h2>{say('waitsList')}</h2>
      <ol className="entries">
        {reports.map((report) => {
          const when = sayWhen(report.confirmedAt, now, say)
          const corrects =
            report.body.supersedes || (report.body.supersedesKey && !report.draft?.dangerSentKey)
          const name = say(corrects ? 'waitsCorrection' : 'waitsItem', { when })
          return (
            <li key={report.key}>
              <p>
                {name}
                {report.problem ? <b> {say('waitsRefused')}</b> : null}
              </p>
              <button type="button" className="small" onClick={() => onChange(report)}>
                {say('change')} <span className="for-reader">{name}</span>
              </button>
            </li>
          )
        })}
      </ol>
    </section>
  )
}
