import { clinicFront } from '@/lib/intake/index.ts'
import { CheckInPage } from '../check-in-page.tsx'

type Props = {
  params: Promise<{ clinic: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

/** The page behind a personal link, which names its clinic. An unknown one gets the same page without numbers. */
export default async function ClinicPage({ params, searchParams }: Props) {
  const { clinic } = await params
  return <CheckInPage clinic={await clinicFront(clinic)} asked={(await searchParams).language} />
}
