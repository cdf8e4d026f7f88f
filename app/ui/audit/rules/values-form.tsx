'use client'

import { useState } from 'react'
import type { SendFault } from '@/lib/client/use-send.ts'
import { confidenceLabels } from '@/lib/domain/labels.ts'
import type { NamedThreshold } from '@/lib/domain/rule-draft.ts'
import { Field } from '../../parts/field.tsx'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { Scroll } from '../../parts/scroll.tsx'
import { TextField } from '../../parts/text-field.tsx'
import audit from '../audit.module.css'
import css from './rules.module.css'
import { amount, thresholdGroups, thresholdText } from './threshold-words.ts'
import { faultOfValue, rangeText, type ValuesDraft, wantedOf } from './values-draft.ts'

type Props = {
  thresholds: readonly NamedThreshold[]
  /** The set whose values stand beside. */
  base: string
  begins: { values: ValuesDraft; reason: string }
  main: string
  isSending: boolean
  fault: SendFault | null
  onSend: (wanted: { values: Record<string, number>; reason: string }) => void
  onClose: () => void
}

/** Every threshold with its range and source, and a place for another value; only what differs is sent. */
export function ValuesForm({ thresholds, base, begins, main, isSending, fault, onSend, onClose }: Props) {
  const [draft, setDraft] = useState<ValuesDraft>(begins.values)
  const [reason, setReason] = useState(begins.reason)
  const [find, setFind] = useState('')
  const [isTried, setTried] = useState(false)
  const wanted = wantedOf(draft, thresholds)
  const changes = Object.keys(wanted)
  const faultsHere = thresholds.filter((one) => faultOfValue(draft[one.name] ?? '', one) !== null)
  const saysNothing = changes.length === 0 && faultsHere.length === 0
  return (
    <form
      noValidate
      className={audit.part}
      onSubmit={(event) => {
        event.preventDefault()
        setTried(true)
        if (faultsHere.length > 0 || saysNothing || reason.trim() === '' || fault?.stored) return
        onSend({ values: wanted, reason: reason.trim() })
      }}
    >
      <div className={audit.panel}>
        <Field
          label="Reason"
          hint="What you saw, and what the change is to do. It stands beside each changed value."
          fault={isTried && reason.trim() === '' ? 'Say why.' : faultOf(fault, 'reason')}
        >
          {(wired) => (
            <textarea
              {...wired}
              rows={2}
              cols={90}
              maxLength={500}
              value={reason}
              onChange={(event) => setReason(event.target.value)}
            />
          )}
        </Field>
        <p role="status">
          {changes.length === 0
            ? 'Nothing differs yet.'
            : `${changes.length} ${changes.length === 1 ? 'value differs' : 'values differ'}: ${changes.map(thresholdText).join('; ')}.`}
        </p>
        {isTried && saysNothing ? (
          <p className={audit.fault}>A draft that changes nothing is no draft.</p>
        ) : null}
        <TextField
          label="Find a threshold"
          size={30}
          value={find}
          onChange={setFind}
          hint="By its words or its name."
        />
      </div>
      {thresholdGroups.map(({ group, thresholds: names }) => (
        <GroupOfValues
          key={group}
          group={group}
          rows={thresholds.filter(({ name }) => Object.hasOwn(names, name) && isFound(name, find))}
          base={base}
          draft={draft}
          set={(name, value) => setDraft({ ...draft, [name]: value })}
          fault={fault}
        />
      ))}
      <FormFoot
        main={main}
        isSending={isSending}
        fault={fault}
        shown={['reason', 'values.']}
        onClose={onClose}
      />
    </form>
  )
}

const isFound = (name: string, find: string) =>
  `${name} ${thresholdText(name)}`.toLowerCase().includes(find.trim().toLowerCase())

type GroupProps = {
  group: string
  rows: readonly NamedThreshold[]
  base: string
  draft: ValuesDraft
  set: (name: string, value: string) => void
  fault: SendFault | null
}

function GroupOfValues({ group, rows, base, draft, set, fault }: GroupProps) {
  if (rows.length === 0) return null
  return (
    <Scroll label={group}>
      <table className={`${audit.table} ${css.values}`}>
        <caption>{group}</caption>
        <thead>
          <tr>
            <th scope="col">Threshold</th>
            <th scope="col">{base}</th>
            <th scope="col">Draft</th>
            <th scope="col">Range</th>
            <th scope="col">Source</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Value key={row.name} row={row} text={draft[row.name] ?? ''} set={set} fault={fault} />
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

type ValueProps = { row: NamedThreshold; text: string } & Pick<GroupProps, 'set' | 'fault'>

function Value({ row, text, set, fault }: ValueProps) {
  const { name, value, unit, source, confidence } = row
  const wrong = faultOfValue(text, row) ?? faultOf(fault, `values.${name}`)
  return (
    <tr>
      <th scope="row">
        {thresholdText(name)}
        <p className={audit.quiet}>{name}</p>
      </th>
      <td>{amount(value, unit)}</td>
      <td>
        <input
          aria-label={`${thresholdText(name)}, in the draft${unit === '' ? '' : `, ${unit}`}`}
          aria-describedby={wrong ? `fault-${name}` : undefined}
          aria-invalid={wrong ? true : undefined}
          inputMode="decimal"
          autoComplete="off"
          size={7}
          value={text}
          onChange={(event) => set(name, event.target.value)}
        />
      </td>
      <td>{rangeText(row)}</td>
      <td>
        {wrong ? (
          <p id={`fault-${name}`} className={audit.fault}>
            {wrong}
          </p>
        ) : null}
        <p className={audit.quiet}>
          {source} ({confidenceLabels[confidence]})
        </p>
      </td>
    </tr>
  )
}
