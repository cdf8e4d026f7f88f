'use client'

import { useEffect, useRef, useState } from 'react'
import { type DrainDraft, newDrain, type Offered } from './drain-draft.ts'
import { DrainFields } from './drain-fields.tsx'
import css from './enrol.module.css'
import { Part } from './part.tsx'

const MOST_DRAINS = 12

type Props = {
  drains: readonly DrainDraft[]
  offered: Offered
  faults: Record<string, string>
  onChange: (drains: DrainDraft[]) => void
}

/** The drains of a person, each a part of the form. A further one gets the focus, so that a keyboard goes on in it. */
export function DrainsFields({ drains, offered, faults, onChange }: Props) {
  const parts = useRef<HTMLDivElement>(null)
  const addButton = useRef<HTMLButtonElement>(null)
  const [added, setAdded] = useState(0)
  useEffect(() => {
    if (added > 0) parts.current?.querySelector<HTMLElement>('section:last-of-type select')?.focus()
  }, [added])
  return (
    <div ref={parts} className={css.drains}>
      {drains.map((drain, i) => (
        <Part
          key={drain.key}
          title={drains.length > 1 ? `Drain ${i + 1}` : 'Drain'}
          aside={
            drains.length > 1 ? (
              <button
                type="button"
                data-quiet
                onClick={() => {
                  onChange(drains.filter((_, at) => at !== i))
                  addButton.current?.focus()
                }}
              >
                Remove drain {i + 1}
              </button>
            ) : null
          }
        >
          <DrainFields
            drain={drain}
            path={`drains[${i}]`}
            offered={offered}
            faults={faults}
            onChange={(next) => onChange(drains.map((one, at) => (at === i ? next : one)))}
          />
        </Part>
      ))}
      {drains.length < MOST_DRAINS ? (
        <p>
          <button
            ref={addButton}
            type="button"
            onClick={() => {
              const key = Math.max(...drains.map((drain) => drain.key)) + 1
              onChange([...drains, newDrain(key, offered)])
              setAdded(key)
            }}
          >
            Another drain
          </button>
        </p>
      ) : null}
    </div>
  )
}
