import { type ReactNode, useMemo } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Draft } from '../answers/draft.ts'
import { faultsAtFields } from '../answers/faults.ts'
import { Form } from '../form/form.tsx'
import type { RefusedReport } from '../visit/phase.ts'
import type { Visit } from '../visit/use-visit.ts'
import { useSay } from '../words/say.tsx'

type Props = { draft: Draft; refused: RefusedReport; view: CheckInView; visit: Visit; below: ReactNode }

/** The form of a report that the clinic refused: it opens at the first question to be mended. */
export function RefusedForm({ draft, refused, view, visit, below }: Props) {
  const say = useSay()
  const faults = useMemo(() => faultsAtFields(refused.problem, refused.body, say), [refused, say])
  const start = { ...draft, step: faults[0]?.step ?? draft.step }
  return <Form view={view} start={start} faults={faults} visit={visit} below={below} />
}
