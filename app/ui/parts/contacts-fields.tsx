'use client'

import { useEffect, useRef, useState } from 'react'
import { discloseLabels } from '@/lib/domain/labels.ts'
import { Choice, Field } from './field.tsx'
import form from './form.module.css'
import css from './people.module.css'
import { type ContactDraft, movedContact, newContact, type ProfileDraft } from './profile-draft.ts'
import { Select } from './select.tsx'
import { TextField } from './text-field.tsx'

const MOST_CONTACTS = 6

type Props = {
  contacts: readonly ContactDraft[]
  set: (part: Partial<ProfileDraft>) => void
  /** By the door's path below the profile. */
  faults: Record<string, string>
}

/** Whom to call, in order: the patient first. What may be said to whom was asked of the patient. */
export function ContactsFields({ contacts, set, faults }: Props) {
  const change = (at: number, part: Partial<ContactDraft>) =>
    set({ contacts: contacts.map((one, i) => (i === at ? { ...one, ...part } : one)) })
  const list = useRef<HTMLOListElement>(null)
  const addButton = useRef<HTMLButtonElement>(null)
  const [added, setAdded] = useState(0)
  useEffect(() => {
    if (added > 0) list.current?.querySelector<HTMLElement>('li:last-child input')?.focus()
  }, [added])
  return (
    <>
      <ol ref={list} className={css.contacts}>
        {contacts.map((contact, i) => (
          <li key={contact.key}>
            <fieldset className={form.row}>
              <legend className={css.who}>
                {i === 0 ? 'First: the patient' : `Then ${contact.name || `contact ${i + 1}`}`}
              </legend>
              {i === 0 ? null : (
                <>
                  <TextField
                    label="Name"
                    size={20}
                    maxLength={200}
                    value={contact.name}
                    onChange={(name) => change(i, { name })}
                    fault={faults[`contacts[${i}].name`]}
                  />
                  <TextField
                    label="Related how"
                    size={12}
                    maxLength={60}
                    value={contact.relation}
                    onChange={(relation) => change(i, { relation })}
                    fault={faults[`contacts[${i}].relation`]}
                  />
                </>
              )}
              <TextField
                label="Phone"
                type="tel"
                size={16}
                maxLength={40}
                value={contact.phone}
                onChange={(phone) => change(i, { phone })}
                fault={faults[`contacts[${i}].phone`]}
              />
              <TextField
                label="E-mail"
                type="email"
                size={20}
                maxLength={200}
                value={contact.email}
                onChange={(email) => change(i, { email })}
                fault={faults[`contacts[${i}].email`]}
              />
              <div className={css.consent}>
                <Choice
                  type="checkbox"
                  checked={contact.mayCall}
                  onChange={(mayCall) => change(i, { mayCall })}
                >
                  agrees to calls
                </Choice>
                <Choice
                  type="checkbox"
                  checked={contact.mayVoicemail}
                  onChange={(mayVoicemail) => change(i, { mayVoicemail })}
                >
                  voicemail
                </Choice>
              </div>
              <Field label="Whoever answers may be told" fault={faults[`contacts[${i}].mayDisclose`]}>
                {(wired) => (
                  <Select
                    {...wired}
                    value={contact.mayDisclose}
                    onChange={(mayDisclose) => mayDisclose && change(i, { mayDisclose })}
                    labels={discloseLabels}
                  />
                )}
              </Field>
              {i === 0 ? null : (
                <div className={css.order}>
                  {i > 1 ? (
                    <button
                      type="button"
                      data-quiet
                      onClick={() => set({ contacts: movedContact(contacts, i, -1) })}
                    >
                      Call earlier<span className="for-reader">: {contact.name || `contact ${i + 1}`}</span>
                    </button>
                  ) : null}
                  <button
                    type="button"
                    data-quiet
                    onClick={() => {
                      set({ contacts: contacts.filter((_, at) => at !== i) })
                      addButton.current?.focus()
                    }}
                  >
                    Remove<span className="for-reader"> {contact.name || `contact ${i + 1}`}</span>
                  </button>
                </div>
              )}
            </fieldset>
          </li>
        ))}
      </ol>
      {contacts.length < MOST_CONTACTS ? (
        <p>
          <button
            ref={addButton}
            type="button"
            onClick={() => {
              const key = Math.max(...contacts.map((contact) => contact.key)) + 1
              set({ contacts: [...contacts, newContact(key)] })
              setAdded(key)
            }}
          >
            Another contact
          </button>
        </p>
      ) : null}
    </>
  )
}
