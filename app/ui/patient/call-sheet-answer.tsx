'use client'

import { useId } from 'react'
import type { CallAnswer } from '@/lib/client/call-answers.ts'
import type { SheetQuestion } from '@/lib/domain/call-sheet-ask.ts'
import { generalLabels, positionLabels, skinLabels } from '@/lib/domain/labels.ts'
import { General } from '@/lib/domain/words.ts'
import { Select } from '../parts/select.tsx'
import css from './call-sheet.module.css'
import { answerFault, answerText, generalOf, NONE, scaleOf } from './call-sheet-answers.ts'

const yesNo = { yes: 'yes', no: 'no' } as const
const EMPTY = '–'

type Props = {
  question: SheetQuestion
  answer: CallAnswer | undefined
  set: (part: { asked?: boolean; value?: string }) => void
}

/** One question: ticked when it was asked, with a control of the kind that its answer is of. */
export function QuestionRow({ question, answer, set }: Props) {
  const id = useId()
  const value = answer?.value ?? ''
  const fault = answerFault(question, value)
  const text = question.who ? `${question.who}: ${question.question}` : question.question
  return (
    <li className={css.question} data-question data-asked={answer?.asked || undefined}>
      <label>
        <input
          type="checkbox"
          checked={answer?.asked ?? false}
          onChange={(event) => set({ asked: event.target.checked })}
        />
        <span id={`${id}-q`}>{text}</span>
      </label>
      <span className={css.control} data-answer>
        <Control
          question={question}
          value={value}
          set={(said) => set({ value: said })}
          wired={{
            'aria-labelledby': `${id}-q`,
            ...(fault ? { 'aria-invalid': true as const, 'aria-describedby': `${id}-fault` } : {}),
          }}
        />
      </span>
      {fault ? (
        <p id={`${id}-fault`} className={css.fault}>
          {fault}
        </p>
      ) : null}
    </li>
  )
}

type ControlProps = {
  question: SheetQuestion
  value: string
  set: (value: string) => void
  wired: { 'aria-labelledby': string; 'aria-invalid'?: true; 'aria-describedby'?: string }
}

function Control({ question, value, set, wired }: ControlProps) {
  const chosen = { ...wired, value, onChange: set, empty: EMPTY, className: css.answer }
  switch (question.answer) {
    case 'yes-no':
    case 'chills':
    case 'leak':
    case 'draining':
      return <Select<string> {...chosen} labels={yesNo} />
    case 'position':
      return <Select<string> {...chosen} labels={positionLabels} />
    case 'skin':
      return <Select<string> {...chosen} labels={skinLabels} />
    case 'general':
      return <GeneralControl label={question.question} value={value} set={set} />
    case 'words':
      return <Typed value={value} set={set} wired={wired} className={css.words} />
    default:
      return <Measured question={question} value={value} set={set} wired={wired} />
  }
}

/** A number with its unit beside it. */
function Measured({ question: { answer }, value, set, wired }: ControlProps) {
  const unit = answer === 'temperature' ? `°${scaleOf(value)}` : answer === 'pain' ? 'of 10' : 'mL'
  return (
    <span className={css.measured}>
      <Typed value={value} set={set} wired={wired} inputMode="decimal" className={css.short} />
      <span>{unit}</span>
    </span>
  )
}

type TypedProps = Omit<ControlProps, 'question'> & {
  inputMode?: 'decimal'
  className: string | undefined
}

function Typed({ value, set, wired, inputMode, className }: TypedProps) {
  return (
    <input
      {...wired}
      className={className}
      inputMode={inputMode}
      maxLength={400}
      autoComplete="off"
      value={value}
      onChange={(event) => set(event.target.value)}
    />
  )
}

/** Several of the general symptoms, or none of them. */
function GeneralControl({ label, value, set }: Pick<ControlProps, 'value' | 'set'> & { label: string }) {
  const chosen = generalOf(value)
  const said = answerText({ answer: 'general' }, value)
  return (
    <details className={css.general}>
      <summary>
        <span className="for-reader">{label} </span>
        {said || 'say which'}
      </summary>
      <span className={css.choices}>
        {General.options.map((one) => (
          <label key={one}>
            <input
              type="checkbox"
              checked={chosen.includes(one)}
              onChange={(event) =>
                set(
                  (event.target.checked ? [...chosen, one] : chosen.filter((other) => other !== one)).join(
                    ' ',
                  ),
                )
              }
            />
            <span>{generalLabels[one]}</span>
          </label>
        ))}
        <label>
          <input
            type="checkbox"
            checked={value === NONE}
            onChange={(event) => set(event.target.checked ? NONE : '')}
          />
          <span>none of these</span>
        </label>
      </span>
    </details>
  )
}
