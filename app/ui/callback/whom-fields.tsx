'use client'

import { Direction } from '@/lib/domain/callback.ts'
import { directionLabels, discloseLabels } from '@/lib/domain/labels.ts'
import type { Contact } from '@/lib/domain/profile.ts'
import { Choice, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import type { SaidProps } from './said-fields.tsx'

/** Who rang whom, and whom of the contacts: in their order, each with what may be said. */
export function WhomFields({ draft, set, fault, contacts }: SaidProps & { contacts: readonly Contact[] }) {
  const nameOf = ({ relation, name }: Contact) => (relation === 'self' ? null : name)
  return (
    <>
      <Group legend="Who called" fault={faultOf(fault, 'direction')}>
        {Direction.options.map((direction) => (
          <Choice
            key={direction}
            type="radio"
            name="direction"
            checked={draft.direction === direction}
            onChange={() =>
              set({ direction, outcome: direction === 'they-called' ? 'reached' : draft.outcome })
            }
          >
            {directionLabels[direction]}
          </Choice>
        ))}
      </Group>
      {contacts.length > 1 ? (
        <Group
          legend={draft.direction === 'they-called' ? 'Who it was' : 'Whom'}
          fault={faultOf(fault, 'contact')}
        >
          <div className={form.stack}>
            {contacts.map((contact) => (
              <Choice
                key={contact.name}
                type="radio"
                name="contact"
                checked={draft.contact === nameOf(contact)}
                onChange={() => set({ contact: nameOf(contact) })}
              >
                <b>{contact.name}</b>
                <br />
                <span className={form.hint}>{aboutContact(contact)}</span>
              </Choice>
            ))}
          </div>
        </Group>
      ) : null}
    </>
  )
}

function aboutContact({ relation, phone, mayCall, mayVoicemail, mayDisclose }: Contact): string {
  const who = relation === 'self' ? null : relation
  if (!mayCall) return [who, 'not to be called'].filter(Boolean).join('; ')
  return [
    who,
    phone ?? 'no number noted',
    mayVoicemail ? 'voicemail allowed' : 'no voicemail',
    `may be told ${discloseLabels[mayDisclose]}`,
  ]
    .filter(Boolean)
    .join('; ')
}
