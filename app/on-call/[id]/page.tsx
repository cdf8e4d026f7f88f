import type { Metadata } from 'next'
import { OnCallScreen } from '../../ui/on-call/on-call-screen.tsx'

export const metadata: Metadata = { title: 'On call', robots: { index: false, follow: false } }

/**
 * What the link of a message to the person on call opens. The page itself holds nothing and changes nothing: the
 * secret stands behind the # of the address, which no mail program and no server sees, and the screen asks with it.
 */
export default async function OnCallPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <OnCallScreen id={id} />
}
