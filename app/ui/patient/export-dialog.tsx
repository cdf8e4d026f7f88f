'use client'

import { useState } from 'react'
import { patientDoor } from '@/lib/client/patient-door.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { cautions } from '@/lib/domain/project.ts'
import form from '../parts/form.module.css'
import css from './export-dialog.module.css'
import { PatientDialog } from './patient-dialog.tsx'

const papers = { a4: 'A4', letter: 'Letter' } as const

/** What can be taken of a patient: the pages for the chart, and the charts' data as tables. */
export function ExportDialog({ page, onClose }: { page: PatientPage; onClose: () => void }) {
  const [paper, setPaper] = useState<keyof typeof papers>('a4')
  const door = `${patientDoor(page.patient.id)}/export`
  return (
    <PatientDialog patient={page.patient} title="Export:" onClose={onClose}>
      <div className={form.form}>
        <section className={css.part}>
          <h3>For the chart at the hospital</h3>
          <p>
            Two pages: situation, findings with their thresholds, drains, orders and calls; then the timeline.
            What has no room is named.
          </p>
          <fieldset className={form.choices} aria-label="Paper">
            {Object.entries(papers).map(([value, name]) => (
              <label key={value} className={form.choice}>
                <input
                  type="radio"
                  name="paper"
                  checked={paper === value}
                  onChange={() => setPaper(value as keyof typeof papers)}
                />
                {name}
              </label>
            ))}
          </fieldset>
          <p>
            <a className="button" data-main href={`${door}/chart.pdf?paper=${paper}`} download>
              PDF, two pages
            </a>
          </p>
        </section>
        <section className={css.part}>
          <h3>Everything in the charts, as tables</h3>
          <p>
            CSV with two identifiers in every row. Times and days are the patient’s ({page.record.timeZone}).
            Not known is empty, never 0. They reach back 400 days.
          </p>
          <p className={css.links}>
            <a className="button" href={`${door}/days.csv`} download>
              Days, CSV
            </a>
            <a className="button" href={`${door}/events.csv`} download>
              Events, CSV
            </a>
          </p>
        </section>
        <p className={form.hint}>
          Who exports what is entered in the access record. Where the file lies is yours to mind.
        </p>
        <p className={form.hint}>{cautions}</p>
      </div>
      <div className={form.actions}>
        <button type="button" onClick={onClose}>
          Close
        </button>
      </div>
    </PatientDialog>
  )
}
