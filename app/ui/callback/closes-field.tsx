'use client'

import type { Flag } from '@/lib/domain/flag.ts'
import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { Choice, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import type { CallDraft } from './draft.ts'

type Props = {
  flags: readonly Flag[]
  /** Flags that stood when the form was opened, and no longer do. */
  gone: readonly Flag[]
  /** Names of the drains by id. */
  labels: Readonly<Record<string, string>>
  draft: CallDraft
  set: (part: Partial<CallDraft>) => void
  fault: string | undefined
}

/** Nothing is closed unless it is named: closing is a decision, not a by-product of the call. */
export function ClosesField({ flags, gone, labels, draft, set, fault }: Props) {
  const isAll = flags.every(({ id }) => draft.closes.includes(id))
  const name = ({ code, drain }: Flag) =>
    `${findingLabels[code]}${drain && labels[drain] ? `, ${labels[drain]}` : ''}`
  return (
    <Group
      legend="Closes"
      hint="What you leave unmarked stays on the worklist. A call that was owed is made by this one."
      fault={fault}
    >
      <div className={form.stack}>
        {flags.map((flag) => (
          <Choice
            key={flag.id}
            type="checkbox"
            checked={draft.closes.includes(flag.id)}
            onChange={(on) =>
              set({
                closes: on ? [...draft.closes, flag.id] : draft.closes.filter((other) => other !== flag.id),
              })
            }
          >
            <b>{name(flag)}</b> · {urgencyLabels[flag.urgency].toLowerCase()}
            <br />
            <span className={form.hint}>{flag.finding.says}</span>
          </Choice>
        ))}
        {gone.map((flag) => (
          <p key={flag.id} className={form.hint}>
            {name(flag)}: no longer stands, it was closed or has ended meanwhile.
          </p>
        ))}
        {flags.length > 1 ? (
          <Choice
            type="checkbox"
            checked={isAll}
            onChange={(on) => set({ closes: on ? flags.map(({ id }) => id) : [] })}
          >
            All of these
          </Choice>
        ) : null}
      </div>
    </Group>
  )
}
