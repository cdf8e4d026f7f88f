import { headers } from 'next/headers'
import { keepEarly, READY } from './early.ts'

/** The first script of a page, in the page itself: it hears before any file has come. */
export async function EarlyScript() {
  const policy = (await headers()).get('content-security-policy')
  const nonce = policy?.match(/'nonce-([^']+)'/)?.[1]
  return (
    // A browser hides the nonce from scripts, so the page finds it empty where it was sent.
    <script nonce={nonce} suppressHydrationWarning>
      {`(${keepEarly})(${JSON.stringify(READY)})`}
    </script>
  )
}
