import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientNote } from '@/lib/domain/patient-note.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './patient.module.css'
import { useMore } from './use-more.tsx'

/** The notes without a call, the newest first. One that was taken back is struck out and stays readable. */
export function NotesList({ page }: { page: PatientPage }) {
  const zone = page.clinic.timeZone
  const [shown, more] = useMore(page.notes, 'notes')
  return (
    <section aria-labelledby="notes" className={css.section}>
      <h2 id="notes">Notes</h2>
      {page.notes.length === 0 ? <p className={css.quiet}>None written.</p> : null}
      <ul className={css.list}>
        {shown.map((note) => (
          <li key={note.id}>
            {note.undoneAt === null ? (
              <OneNote note={note} zone={zone} />
            ) : (
              <>
                <del className={css.struck}>
                  <OneNote note={note} zone={zone} />
                </del>
                <p>
                  Taken back {dayAndTime(note.undoneAt, zone)} by {note.undoneBy}.
                </p>
              </>
            )}
          </li>
        ))}
      </ul>
      {more}
    </section>
  )
}

function OneNote({ note, zone }: { note: PatientNote; zone: string }) {
  return (
    <>
      <h3>
        {dayAndTime(note.at, zone)} · {note.by}
      </h3>
      <p className={css.said}>{note.text}</p>
    </>
  )
}
