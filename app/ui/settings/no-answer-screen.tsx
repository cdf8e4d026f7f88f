'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { noAnswerQuery } from '@/lib/client/no-answer-query.ts'
import { type SendFault, useSend } from '@/lib/client/use-send.ts'
import { noAnswerStepLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import {
  NoAnswerPage,
  noAnswerConfidence,
  standardNoAnswer,
  urgenciesOfRule,
} from '@/lib/domain/no-answer.ts'
import { FieldFault } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import { draftOfRules, type RuleDraft, toRules } from './no-answer-draft.ts'
import css from './settings.module.css'

/** What follows attempts to call that nobody answers, by urgency. */
export function NoAnswerScreen({ zone }: { zone: string }) {
  const { data } = useSuspenseQuery(noAnswerQuery)
  const [says, setSays] = useState('')
  return (
    <>
      <h1>No answer</h1>
      <p className={form.hint}>
        {data.isStandard
          ? `These are the standard rules. No source was found for their numbers: ${noAnswerConfidence}.`
          : 'These are the clinic’s own rules.'}{' '}
        {data.changedAt && data.changedBy
          ? `Last changed ${dayAndTime(data.changedAt, zone)} by ${data.changedBy}. `
          : ''}
        A rule says what to try next. It never closes a row, and never moves when to act by.
      </p>
      <p role="status">{says}</p>
      <RulesForm
        key={data.changedAt ?? 'first'}
        page={data}
        onSaved={() => setSays('The rules are saved.')}
      />
    </>
  )
}

function RulesForm({ page, onSaved }: { page: NoAnswerPage; onSaved: () => void }) {
  const [draft, setDraft] = useState(() => draftOfRules(page.rules))
  const { send, isSending, fault } = useSend('/api/clinic/no-answer', NoAnswerPage, onSaved)
  return (
    <form
      noValidate
      className={css.form}
      onSubmit={(event) => {
        event.preventDefault()
        if (!fault?.stored) send(toRules(draft))
      }}
    >
      {urgenciesOfRule.map((urgency) => (
        <Rule
          key={urgency}
          name={urgency}
          title={urgencyLabels[urgency]}
          rule={draft[urgency]}
          onChange={(rule) => setDraft({ ...draft, [urgency]: rule })}
          fault={fault}
        />
      ))}
      {fault ? (
        <p role="alert" className={form.trouble}>
          {fault.text}
        </p>
      ) : null}
      <p className={form.row}>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Saving' : 'Save the rules'}
        </button>
        <button type="button" data-quiet onClick={() => setDraft(draftOfRules(standardNoAnswer))}>
          Fill in the standard rules
        </button>
      </p>
    </form>
  )
}

type RuleProps = {
  name: string
  title: string
  rule: RuleDraft
  onChange: (rule: RuleDraft) => void
  fault: SendFault | null
}

function Rule({ name, title, rule, onChange, fault }: RuleProps) {
  return (
    <section className={css.part} aria-labelledby={`rule-${name}`}>
      <h2 id={`rule-${name}`}>{title}</h2>
      <div className={form.row}>
        <TextField
          label="Tries"
          hint="1 to 10"
          inputMode="numeric"
          size={4}
          maxLength={2}
          value={rule.tries}
          onChange={(tries) => onChange({ ...rule, tries })}
          fault={faultOf(fault, `${name}.tries`)}
        />
        <TextField
          label="Minutes apart"
          hint="1 to 1440"
          inputMode="numeric"
          size={6}
          maxLength={4}
          value={rule.everyMinutes}
          onChange={(everyMinutes) => onChange({ ...rule, everyMinutes })}
          fault={faultOf(fault, `${name}.everyMinutes`)}
        />
      </div>
      <fieldset className={css.steps}>
        <legend>Then, in this order</legend>
        <ol>
          {rule.next.map((step, i) => (
            <li key={i}>
              <Select
                aria-label={`${title}, step ${i + 1}`}
                labels={noAnswerStepLabels}
                empty="nothing further"
                value={step}
                onChange={(next) =>
                  onChange({ ...rule, next: rule.next.map((one, k) => (k === i ? next : one)) })
                }
              />
            </li>
          ))}
        </ol>
        <FieldFault text={faultOf(fault, `${name}.next`)} />
      </fieldset>
    </section>
  )
}
