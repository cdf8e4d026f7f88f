import type { Metadata } from 'next'
import Link from 'next/link'
import { numbersQuery } from '@/lib/client/numbers-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readNumbers } from '@/lib/worklist/numbers.ts'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'
import { Hydrated } from '../../ui/frame/hydrated.tsx'
import { NumbersScreen } from '../../ui/numbers/numbers-screen.tsx'

export const metadata: Metadata = { title: 'Numbers' }

export default async function NumbersPage() {
  const staff = await staffPage('read-numbers')
  const numbers = await readNumbers(staff)
  return (
    <Frame header={<Header staff={staff} clinic={numbers.clinic} asOf={numbers.asOf} room="numbers" />}>
      <Hydrated queryKey={numbersQuery.queryKey} data={numbers}>
        <NumbersScreen />
      </Hydrated>
      <p>
        <Link href="/verdicts" prefetch={false}>
          Verdicts on my calls
        </Link>
      </p>
    </Frame>
  )
}
