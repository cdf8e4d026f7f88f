import { summaryOf } from '../answers/summary.ts'
import { useForm } from '../form/form-context.ts'
import { CheckNote } from '../parts/check-note.tsx'
import { say } from '../words/say.ts'

/** Everything once more before it is sent, each part with a way to change it, and room for own words. */
export function Summary({ onChange }: { onChange: (step: string) => void }) {
  const { draft, view, now, patch } = useForm()
  return (
    <>
      {summaryOf(draft, view, now()).map((group) => (
        <section key={group.step} className="group">
          <div className="group-head">
            <h2>{group.title}</h2>
            <button type="button" onClick={() => onChange(group.step)}>
              {say.change} <span className="for-reader">{group.title}</span>
            </button>
          </div>
          <dl>
            {group.lines.map(({ question, answer }) => (
              <div key={question}>
                <dt>{question}</dt>
                <dd className={answer === null ? 'unanswered' : undefined}>{answer ?? say.notAnswered}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
      <div className="question">
        <label htmlFor="q-note">{say.note}</label>
        <p className="hint" id="hint-note">
          {say.noteHint}
        </p>
        <CheckNote field="note" />
        <textarea
          id="q-note"
          rows={3}
          aria-describedby="hint-note"
          value={draft.note ?? ''}
          onChange={(event) => patch({ note: event.target.value })}
        />
      </div>
    </>
  )
}
