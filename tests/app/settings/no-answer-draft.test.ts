import { expect, it } from 'vitest'
import { draftOfRules, toRules } from '@/app/ui/settings/no-answer-draft.ts'
import { NoAnswer, standardNoAnswer } from '@/lib/domain/no-answer.ts'

it('the rules come back from the form as they went in, empty places left out', () => {
  const draft = draftOfRules(standardNoAnswer)
  expect(draft['at-once'].next).toEqual(['contacts', 'on-call', 'welfare-check', ''])
  expect(toRules(draft)).toEqual(standardNoAnswer)
})

it('what is no number is sent as it was typed, for the door to name', () => {
  const draft = draftOfRules(standardNoAnswer)
  const sent = toRules({ ...draft, 'at-once': { ...draft['at-once'], tries: 'three', everyMinutes: '' } })
  const { error } = NoAnswer.safeParse(sent)
  expect(error?.issues.map(({ path }) => path.join('.'))).toEqual(['at-once.tries', 'at-once.everyMinutes'])
})
