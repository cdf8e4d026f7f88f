import type { Worklist } from '@/lib/domain/worklist.ts'
import css from './worklist.module.css'

/** What keeps the clinic from being told, and what could not be read: in plain sight above the rows. */
export function Trouble({ unreadable, system }: Pick<Worklist, 'unreadable' | 'system'>) {
  return (
    <>
      {system.length > 0 ? (
        <div className={css.trouble}>
          {system.map((sentence) => (
            <p key={sentence}>
              <b>{sentence}</b>
            </p>
          ))}
        </div>
      ) : null}
      {unreadable.length > 0 ? (
        <div className={css.trouble}>
          <p>
            <b>{unreadable.length} could not be read and may be missing below.</b> Tell whoever runs this
            system:
          </p>
          <ul>
            {unreadable.map(({ what, id, why }) => (
              <li key={`${what} ${id}`}>
                {what} {id}: {why}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
    </>
  )
}
