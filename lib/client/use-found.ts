import { useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { z } from 'zod'
import { FoundPatient } from '../domain/found-patient.ts'
import { ask } from './ask.ts'

/** How long nothing is typed until the server is asked. */
const PAUSE_MS = 300
const LEAST = 2

/** Patients by the words that somebody types, asked for when they pause. */
export function useFound(wanted: string) {
  const words = wanted.trim()
  const [settled, setSettled] = useState('')
  useEffect(() => {
    const timer = setTimeout(() => setSettled(words), PAUSE_MS)
    return () => clearTimeout(timer)
  }, [words])
  return useQuery({
    queryKey: ['found', settled],
    queryFn: ({ signal }) =>
      ask('/api/patients/find', z.array(FoundPatient), { method: 'POST', body: { find: settled }, signal }),
    enabled: settled.length >= LEAST && settled === words,
    staleTime: 30_000,
    gcTime: 60_000,
  })
}
