import { carriedOf, type SummaryLine, summaryOf } from '../answers/summary.ts'
import { sayWhen } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import { CheckNote } from '../parts/check-note.tsx'
import { useSay } from '../words/say.tsx'

/** Everything once more before it is sent, each part with a way to change it, and room for own words. */
export function Summary({ onChange }: { onChange: (step: string) => void }) {
  const say = useSay()
  const { draft, view, now, patch } = useForm()
  const carried = carriedOf(draft, view, now(), say)
  return (
    <>
      {draft.original ? (
        <p className="state">{say('replaces', { when: sayWhen(draft.original.sentAt, now(), say) })}</p>
      ) : null}
      {summaryOf(draft, view, now(), say).map((group) => (
        <section key={group.step} className="group">
          <div className="group-head">
            <h2>{group.title}</h2>
            <button type="button" onClick={() => onChange(group.step)}>
              {say('change')} <span className="for-reader">{group.title}</span>
            </button>
          </div>
          <dl>
            {group.lines.map((line) => (
              <AnswerLine key={line.question} line={line} />
            ))}
          </dl>
        </section>
      ))}
      {carried.length ? (
        <section className="group">
          <h2>{say('carried')}</h2>
          <ul>
            {carried.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </section>
      ) : null}
      <div className="question">
        <label htmlFor="q-note">{say('q.note')}</label>
        <p className="hint" id="hint-note">
          {say('q.noteHint')}
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

function AnswerLine({ line: { question, answer, was } }: { line: SummaryLine }) {
  const say = useSay()
  return (
    <div>
      <dt>{question}</dt>
      <dd className={answer === null ? 'unanswered' : undefined}>{answer ?? say('notAnswered')}</dd>
      {was === undefined ? null : (
        <dd className="was">{say('replacesWas', { answer: was ?? say('notAnswered') })}</dd>
      )}
    </div>
  )
}
