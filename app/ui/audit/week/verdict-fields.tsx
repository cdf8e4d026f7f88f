'use client'

import type { RefObject } from 'react'
import { Harm, type Truly, Verdict } from '@/lib/domain/review.ts'
import { harmLabels, trulyLabels, verdictLabels } from '@/lib/domain/review-page.ts'
import { Choice, Field, Group } from '../../parts/field.tsx'
import { Key } from '../../parts/key.tsx'
import { keyOfDoing, keyOfHarm, keyOfTruly, keyOfVerdict } from './keys.ts'
import type { VerdictDraft } from './read-item.tsx'
import css from './week.module.css'

type Props = {
  draft: VerdictDraft
  choices: readonly Truly[]
  keysOn: boolean
  isMissing: boolean
  noteRef: RefObject<HTMLTextAreaElement | null>
  onChange: (part: Partial<VerdictDraft>) => void
}

/** Verdict, what was really the matter, harm and a note; each choice shows its key. */
export function VerdictFields({ draft, choices, keysOn, isMissing, noteRef, onChange }: Props) {
  return (
    <div className={css.fields}>
      <Group legend="A call was" fault={isMissing ? 'Choose a verdict first.' : undefined}>
        {Verdict.options.map((verdict) => (
          <Choice
            key={verdict}
            type="radio"
            name="verdict"
            checked={draft.verdict === verdict}
            invalid={isMissing}
            onChange={() => onChange({ verdict })}
          >
            {verdictLabels[verdict]} <Key on={keysOn}>{keyOfVerdict(verdict)}</Key>
          </Choice>
        ))}
      </Group>
      <Group legend="What was really the matter" hint="Left open where it cannot be told.">
        {choices.map((truly) => (
          <Choice
            key={truly}
            type="radio"
            name="truly"
            checked={draft.truly === truly}
            onChange={() => onChange({ truly })}
          >
            {trulyLabels[truly]} <Key on={keysOn}>{keyOfTruly(truly)}</Key>
          </Choice>
        ))}
        <Choice
          type="radio"
          name="truly"
          checked={draft.truly === null}
          onChange={() => onChange({ truly: null })}
        >
          Left open
        </Choice>
      </Group>
      <Group legend="Harm">
        {Harm.options.map((harm) => (
          <Choice
            key={harm}
            type="radio"
            name="harm"
            checked={draft.harm === harm}
            onChange={() => onChange({ harm })}
          >
            {harmLabels[harm]} <Key on={keysOn}>{keyOfHarm(harm)}</Key>
          </Choice>
        ))}
      </Group>
      <Field
        label="Note for the nurse"
        hint={keysOn ? `${keyOfDoing('note')} to write, Escape to leave` : undefined}
      >
        {(wired) => (
          <textarea
            {...wired}
            ref={noteRef}
            rows={2}
            maxLength={2000}
            value={draft.note}
            onChange={(event) => onChange({ note: event.target.value })}
          />
        )}
      </Field>
    </div>
  )
}
