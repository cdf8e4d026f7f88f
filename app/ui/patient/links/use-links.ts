import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { linksQuery } from '@/lib/client/settings-queries.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { IssuedCode, IssuedLink, type LinkInList, type NewLink } from '@/lib/domain/patient-link.ts'
import { keptLinkName } from '../../hand-out/use-kept-link.ts'

/** What can be done with a patient's links. */
export type LinkStep =
  | { what: 'new'; wanted: NewLink }
  | { what: 'replace'; link: LinkInList }
  | { what: 'end'; link: LinkInList }
  | { what: 'end-all' }
  | { what: 'code' }

/** What is shown once, and nowhere again. */
export type Shown =
  | { what: 'link'; link: string; helper: string | null }
  | { what: 'code'; code: string; expiresAt: string }
  | { what: 'done'; says: string }

/** A patient's links and the steps with them, one at a time. A step that had no answer is tried again under its own key. */
export function useLinks(patientId: string) {
  const client = useQueryClient()
  const list = useQuery(linksQuery(patientId))
  const [shown, setShown] = useState<Shown | null>(null)
  const last = useRef({ step: '', key: '' })
  const work = useMutation({
    mutationFn: (step: LinkStep) => {
      const text = JSON.stringify(step)
      if (last.current.step !== text) last.current = { step: text, key: newKey() }
      return take(patientId, step, last.current.key)
    },
    onSuccess: (value) => {
      last.current = { step: '', key: '' }
      // Known only now: the hand-out finds the patient's own link in this tab.
      if (value.what === 'link' && value.helper === null)
        window.sessionStorage.setItem(keptLinkName(patientId), value.link)
      setShown(value)
    },
    onSettled: () => client.invalidateQueries({ queryKey: linksQuery(patientId).queryKey }),
  })
  return {
    links: list.data ?? null,
    shown,
    step: (step: LinkStep) => {
      if (!work.isPending) work.mutate(step)
    },
    isBusy: work.isPending,
    fault: work.error ? faultFrom(work.error) : list.error ? faultFrom(list.error) : null,
  }
}

async function take(patientId: string, step: LinkStep, key: string): Promise<Shown> {
  const door = patientDoor(patientId)
  if (step.what === 'new') {
    const { link } = await ask(`${door}/link`, IssuedLink, { method: 'POST', body: step.wanted, key })
    return { what: 'link', link, helper: step.wanted.holder === 'helper' ? step.wanted.holderName : null }
  }
  if (step.what === 'replace') {
    const at = `${door}/links/${encodeURIComponent(step.link.id)}/replace`
    const { link } = await ask(at, IssuedLink, { method: 'POST', key })
    return { what: 'link', link, helper: step.link.holderName }
  }
  if (step.what === 'code') {
    const issued = await ask(`${door}/link/code`, IssuedCode, { method: 'POST', key })
    return { what: 'code', ...issued }
  }
  const one = step.what === 'end' ? `/links/${encodeURIComponent(step.link.id)}` : '/link'
  await ask(`${door}${one}`, z.unknown(), { method: 'DELETE' })
  return {
    what: 'done',
    says: step.what === 'end' ? 'The link is ended.' : 'Every link of this patient is ended.',
  }
}
