'use client'

import { useEffect, useState } from 'react'
import { z } from 'zod'
import { useServerNow } from '@/lib/client/server-time.ts'
import { useSend } from '@/lib/client/use-send.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { ContactsFields } from '../parts/contacts-fields.tsx'
import form from '../parts/form.module.css'
import type { ProfileDraft } from '../parts/profile-draft.ts'
import { UsualFields, WeighsFields } from '../parts/weighs-fields.tsx'
import { AlikeBox } from './alike-box.tsx'
import { doorFaults, enrolFaults, type Start, toEnrolment } from './draft.ts'
import { DrainsFields } from './drains-fields.tsx'
import css from './enrol.module.css'
import { faultsBelow } from './faults-below.ts'
import { HomeFields } from './home-fields.tsx'
import { Part } from './part.tsx'
import { PersonFields } from './person-fields.tsx'
import { useAlike } from './use-alike.ts'
import { useEnrolDraft } from './use-enrol-draft.ts'

const Enrolled = z.looseObject({ patientId: z.string(), link: z.string() })
export type Enrolled = z.infer<typeof Enrolled>

type Props = {
  asOf: Instant
  staffId: string
  start: Start
  zones: readonly string[]
  onEnrolled: (enrolled: Enrolled) => void
}

/** The form of enrolment, on one page in the order in which a nurse asks. */
export function EnrolForm({ asOf, staffId, start, zones, onEnrolled }: Props) {
  const now = useServerNow(asOf)
  const { draft, set, forget, startAnew } = useEnrolDraft(staffId, start)
  const [own, setOwn] = useState<Record<string, string>>({})
  const { alike, askAgain, stopAsking } = useAlike(draft.name, draft.birthDate)
  const { send, isSending, fault } = useSend(
    '/api/patients',
    Enrolled,
    (enrolled) => {
      stopAsking()
      forget()
      onEnrolled(enrolled)
    },
    draft.key,
  )
  const setProfile = (part: Partial<ProfileDraft>) => set({ profile: { ...draft.profile, ...part } })
  const faults = { ...doorFaults(fault?.fields ?? []), ...own }
  const isOwn = Object.keys(own).length > 0

  const submit = () => {
    const found = enrolFaults(
      draft,
      start.zone,
      now,
      alike.map(({ patientId }) => patientId),
    )
    setOwn(found)
    if (Object.keys(found).length === 0 && !fault?.stored) send(toEnrolment(draft, start.zone))
    else queueMicrotask(toFirstFault)
  }

  // What only the server knows, that a number is taken or that somebody is alike, is led to as well.
  const refused = fault?.fields.map(({ field }) => field).join(' ')
  useEffect(() => {
    if (!refused) return
    if (refused.includes('notSameAs')) void askAgain()
    toFirstFault()
  }, [refused, askAgain])

  return (
    <form
      noValidate
      className={css.form}
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <div>
        <h1>Enrol a patient</h1>
        <p className={form.hint}>
          Adults only: the rules are not made for children. What you fill in stays in this tab until it is
          stored.
        </p>
      </div>
      <Part title="Person">
        <PersonFields draft={draft} set={set} faults={faults} zones={zones} />
        <AlikeBox
          alike={alike}
          notSameAs={draft.notSameAs}
          onLooked={(notSameAs) => set({ notSameAs })}
          fault={own.notSameAs}
        />
      </Part>
      <Part title="Contacts, in the order to call">
        <ContactsFields
          contacts={draft.profile.contacts}
          set={setProfile}
          faults={faultsBelow(faults, 'profile.')}
        />
      </Part>
      <Part title="What weighs on a call">
        <WeighsFields draft={draft.profile} set={setProfile} faults={faultsBelow(faults, 'profile.')} />
      </Part>
      <DrainsFields
        drains={draft.drains}
        offered={start.offered}
        faults={faults}
        onChange={(drains) => set({ drains })}
      />
      <Part title="Usual for this person">
        <UsualFields
          draft={draft.usual}
          set={(part) => set({ usual: { ...draft.usual, ...part } })}
          faults={faultsBelow(faults, 'usual.')}
        />
      </Part>
      <Part title="At home">
        <HomeFields draft={draft.profile} set={setProfile} faults={faultsBelow(faults, 'profile.')} />
      </Part>
      {fault || isOwn ? (
        <div role="alert" className={form.trouble}>
          <p>{isOwn ? 'Something above still needs a look; it is marked.' : fault?.text}</p>
          {(isOwn ? [] : (fault?.fields ?? [])).map(({ field, message }) => (
            <p key={`${field} ${message}`}>
              {field} {message}
            </p>
          ))}
        </div>
      ) : null}
      <p className={form.row}>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Sending' : 'Enrol and make the link'}
        </button>
        <ClearButton
          onClear={() => {
            setOwn({})
            startAnew()
          }}
        />
      </p>
    </form>
  )
}

const toFirstFault = () => document.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus()

/** Empties the form at the second press: the first only asks. */
function ClearButton({ onClear }: { onClear: () => void }) {
  const [isSure, setSure] = useState(false)
  return (
    <button
      type="button"
      data-quiet
      onClick={() => {
        if (isSure) onClear()
        setSure(!isSure)
      }}
      onBlur={() => setSure(false)}
    >
      {isSure ? 'Press again to empty the form' : 'Empty the form'}
    </button>
  )
}
