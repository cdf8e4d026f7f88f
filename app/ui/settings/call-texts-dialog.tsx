'use client'

import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import { CALL_QUESTION_MAX, CALL_QUESTIONS_MAX, type CallTextOfFinding } from '@/lib/domain/call-text.ts'
import { standardCallTexts } from '@/lib/domain/call-text-standard.ts'
import { findingLabels } from '@/lib/domain/labels.ts'
import { Dialog } from '../parts/dialog.tsx'
import { Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import { Select } from '../parts/select.tsx'
import css from './call-texts.module.css'
import {
  answerLabels,
  type CallTextDraft,
  type CallTextFaults,
  draftFaults,
  draftOf,
  toBody,
} from './call-texts-draft.ts'

type Props = { finding: CallTextOfFinding; onClose: () => void; onDone: (says: string) => void }

const newest = ({ versions }: CallTextOfFinding) => versions[0]?.version ?? 0
const saved = z.object({ version: z.number() })

/** A further version of what is asked, advised and escalated for a finding. */
export function WriteCallText({ finding, onClose, onDone }: Props) {
  const { code, body } = finding
  const [draft, setDraft] = useState(() => draftOf(body))
  const [faults, setFaults] = useState<CallTextFaults>({})
  const [basedOn] = useState(() => newest(finding))
  const { send, isSending, fault } = useSend('/api/clinic/call-texts', saved, ({ version }) =>
    onDone(`${findingLabels[code]}: version ${version} is in force.`),
  )
  const set = (part: Partial<CallTextDraft>) => setDraft((before) => ({ ...before, ...part }))
  const ask = draft.ask
  const setRow = (key: number, part: Partial<CallTextDraft['ask'][number]>) =>
    set({ ask: ask.map((one) => (one.key === key ? { ...one, ...part } : one)) })
  return (
    <Dialog
      wide
      title={findingLabels[code]}
      about="What a caller asks, advises and escalates"
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          const found = draftFaults(draft)
          setFaults(found)
          if (Object.keys(found).length === 0 && !fault?.stored) send({ code, basedOn, body: toBody(draft) })
        }}
      >
        <div className={form.form}>
          <p className={form.hint}>
            Callers read it from now on, in this clinic’s name: whoever keeps it answers for it. Earlier
            versions stay.
          </p>
          <Group
            legend="Ask"
            hint="In the order in which a caller asks. An answer that tells a reading or a symptom fills in the report by phone."
            fault={faults.ask ?? faultOf(fault, 'body.ask')}
          >
            <ol className={css.rows}>
              {ask.map(({ key, question, answer }, i) => (
                <li key={key} className={css.row}>
                  <input
                    aria-label={`Question ${i + 1}`}
                    maxLength={CALL_QUESTION_MAX}
                    value={question}
                    onChange={(event) => setRow(key, { question: event.target.value })}
                  />
                  <Select
                    aria-label={`Answer to question ${i + 1}`}
                    value={answer}
                    onChange={(kind) => setRow(key, { answer: kind || 'words' })}
                    labels={answerLabels}
                  />
                  <button
                    type="button"
                    data-quiet
                    aria-disabled={i === 0}
                    onClick={() => i > 0 && set({ ask: swapped(ask, i) })}
                  >
                    Up<span className="for-reader">: question {i + 1}</span>
                  </button>
                  <button
                    type="button"
                    data-quiet
                    onClick={() => set({ ask: ask.filter((one) => one.key !== key) })}
                  >
                    Leave out<span className="for-reader"> question {i + 1}</span>
                  </button>
                </li>
              ))}
            </ol>
            {ask.length < CALL_QUESTIONS_MAX ? (
              <button
                type="button"
                onClick={() =>
                  set({
                    ask: [
                      ...ask,
                      { key: Math.max(-1, ...ask.map(({ key }) => key)) + 1, question: '', answer: 'words' },
                    ],
                  })
                }
              >
                Another question
              </button>
            ) : null}
          </Group>
          {(['advise', 'escalate'] as const).map((part) => (
            <Field
              key={part}
              label={part === 'advise' ? 'Advise' : 'When to escalate, by local protocol'}
              hint="One sentence a line."
              fault={faults[part] ?? faultOf(fault, `body.${part}`)}
            >
              {(wired) => (
                <textarea
                  {...wired}
                  rows={4}
                  value={draft[part]}
                  onChange={(event) => set({ [part]: event.target.value })}
                />
              )}
            </Field>
          ))}
          {finding.isStandard ? null : (
            <p>
              <button type="button" data-quiet onClick={() => setDraft(draftOf(standardCallTexts[code]))}>
                Begin with the standard text
              </button>
            </p>
          )}
        </div>
        <FormFoot
          main="Keep as the clinic’s own"
          isSending={isSending}
          fault={fault}
          shown={['body']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}

const swapped = <T,>(list: readonly T[], at: number): T[] => {
  const [before, one] = [list[at - 1], list[at]]
  return before === undefined || one === undefined ? [...list] : list.with(at - 1, one).with(at, before)
}

/** Back to the shipped text, as a further version. */
export function StandardCallText({ finding, onClose, onDone }: Props) {
  const { code } = finding
  const [basedOn] = useState(() => newest(finding))
  const { send, isSending, fault } = useSend('/api/clinic/call-texts', saved, () =>
    onDone(`${findingLabels[code]}: the standard text is in force again.`),
  )
  return (
    <Dialog title="Back to the standard text" about={findingLabels[code]} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          if (!fault?.stored) send({ code, basedOn, body: null })
        }}
      >
        <div className={form.form}>
          <p>
            Callers read the shipped text from now on. This clinic has not approved it, and the call sheet
            says so. What was written stays among the versions.
          </p>
        </div>
        <FormFoot main="Back to the standard" isSending={isSending} fault={fault} onClose={onClose} />
      </form>
    </Dialog>
  )
}
