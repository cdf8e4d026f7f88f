'use client'

import type { SendFault } from '@/lib/client/use-send.ts'
import { type AfterHoursCell, afterHoursConfidence } from '@/lib/domain/after-hours.ts'
import { confidenceLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import type { Urgency } from '@/lib/domain/words.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import css from './rota.module.css'

type Props = {
  path: string
  urgency: Urgency
  cell: AfterHoursCell
  standard: AfterHoursCell
  fault: SendFault | null
  onChange: (cell: AfterHoursCell) => void
}

const tells = { 'on-call': 'the person on call', nobody: 'nobody; the worklist is read' } as const
const channels = { email: 'e-mail', gateway: 'text message', both: 'e-mail and text message' } as const

const textOf = ({ tell, channel, repeatMinutes, passOnMinutes }: AfterHoursCell) =>
  tell === 'nobody'
    ? tells.nobody
    : `${tells['on-call']}, by ${channels[channel]}, again after ${repeatMinutes} min, the next person after ${passOnMinutes} min`

/** One urgency: who is told, by which way, when again, and when the next person. */
export function AfterHoursRow({ path, urgency, cell, standard, fault, onChange }: Props) {
  const minutes = (name: 'repeatMinutes' | 'passOnMinutes') => ({
    type: 'number',
    min: 2,
    value: String(cell[name]),
    fault: faultOf(fault, `${path}.${name}`),
    onChange: (value: string) => onChange({ ...cell, [name]: Number(value) }),
  })
  return (
    <fieldset className={css.row}>
      <legend>{urgencyLabels[urgency]}</legend>
      <div className={form.row}>
        <Field label="Tell" fault={faultOf(fault, `${path}.tell`)}>
          {(wired) => (
            <select
              {...wired}
              value={cell.tell}
              onChange={(event) => onChange({ ...cell, tell: event.target.value as AfterHoursCell['tell'] })}
            >
              {Object.entries(tells).map(([value, name]) => (
                <option key={value} value={value}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
        {cell.tell === 'on-call' ? (
          <>
            <Field label="By" fault={faultOf(fault, `${path}.channel`)}>
              {(wired) => (
                <select
                  {...wired}
                  value={cell.channel}
                  onChange={(event) =>
                    onChange({ ...cell, channel: event.target.value as AfterHoursCell['channel'] })
                  }
                >
                  {Object.entries(channels).map(([value, name]) => (
                    <option key={value} value={value}>
                      {name}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <TextField label="Again after, min" {...minutes('repeatMinutes')} />
            <TextField label="Next person after, min" {...minutes('passOnMinutes')} />
          </>
        ) : null}
      </div>
      <p className={css.standard}>
        Standard ({confidenceLabels[afterHoursConfidence]}): {textOf(standard)}.
      </p>
    </fieldset>
  )
}
