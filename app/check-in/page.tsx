import { CheckIn } from './check-in.tsx'
import { say } from './words/say.ts'

/**
 * The page behind a personal link. What matters most needs no script: whom to call. The link's token is in
 * the fragment, which no server sees, so the clinic's own numbers come with the first answer.
 */
export default function CheckInPage() {
  return (
    <main className="check-in">
      <p className="emergency">{say.emergency}</p>
      <noscript>
        <p>{say.noScript}</p>
      </noscript>
      <CheckIn />
      <footer>
        <p>{say.ownClinicFirst}</p>
      </footer>
    </main>
  )
}
