import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { AlikePatient } from '@/lib/domain/alike.ts'

const PAUSE_MS = 400

/** Patients with a like name and birth date, asked for when somebody pauses in typing. */
export function useAlike(name: string, birthDate: string) {
  const question =
    /^(18|19|20)\d{2}-\d{2}-\d{2}$/.test(birthDate) && name.trim() ? `${birthDate} ${name.trim()}` : ''
  const client = useQueryClient()
  const [settled, setSettled] = useState('')
  useEffect(() => {
    const timer = setTimeout(() => setSettled(question), PAUSE_MS)
    return () => clearTimeout(timer)
  }, [question])
  const { data, refetch } = useQuery({
    queryKey: ['alike', settled],
    queryFn: ({ signal }) =>
      ask('/api/patients/alike', z.array(AlikePatient), {
        method: 'POST',
        body: { name: settled.slice(11), birthDate: settled.slice(0, 10) },
        signal,
      }),
    enabled: settled !== '' && settled === question,
    staleTime: 30_000,
    gcTime: 60_000,
  })
  return {
    alike: settled === question ? (data ?? []) : [],
    askAgain: refetch,
    /** Once enrolled, a person would be found alike to themselves. */
    stopAsking: () => client.removeQueries({ queryKey: ['alike'] }),
  }
}
