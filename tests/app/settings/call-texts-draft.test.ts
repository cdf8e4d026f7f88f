import { expect, it } from 'vitest'
import { draftFaults, draftOf, toBody } from '@/app/ui/settings/call-texts-draft.ts'
import { standardCallTexts } from '@/lib/domain/call-text-standard.ts'

it('every shipped text comes through the form as it is, without a fault', () => {
  for (const body of Object.values(standardCallTexts)) {
    expect(toBody(draftOf(body))).toEqual(body)
    expect(draftFaults(draftOf(body))).toEqual({})
  }
})
it('empty lines and questions are none', () => {
  const draft = {
    ask: [
      { key: 0, question: ' Wet? ', answer: 'leak' as const },
      { key: 1, question: ' ', answer: 'words' as const },
    ],
    advise: '\n Dry it. \n\n',
    escalate: '',
  }
  expect(toBody(draft)).toEqual({
    ask: [{ question: 'Wet?', answer: 'leak' }],
    advise: ['Dry it.'],
    escalate: [],
  })
})
it('says what is too much or missing', () => {
  const draft = draftOf(standardCallTexts.leak)
  expect(draftFaults({ ...draft, ask: [] }).ask).toMatch(/at least one/)
  expect(draftFaults({ ...draft, advise: 'x\n'.repeat(5) }).advise).toMatch(/At most/)
  expect(draftFaults({ ...draft, escalate: 'x'.repeat(241) }).escalate).toMatch(/characters/)
})
