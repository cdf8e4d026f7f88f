'use client'

import { Door } from './ui/door/door.tsx'

/** In place of the framework's own page. `digest` is how the server's log names this fault. */
export default function Failed({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <Door title="This page could not be shown">
      <p role="alert">
        Nothing that you sent before is lost. Try again; if it stays, tell your administrator
        {error.digest ? ` the number ${error.digest}` : ''}.
      </p>
      <p>
        <button type="button" data-main onClick={reset}>
          Try again
        </button>{' '}
        <a href="/">To the worklist</a>
      </p>
    </Door>
  )
}
