'use client'

import type { PaperAnswers, PaperAsks } from '@/lib/domain/paper-sheet.ts'
import { Choice, Group } from '../parts/field.tsx'
import css from './paper.module.css'

type Props = {
  asks: PaperAsks | null
  answers: PaperAnswers
  onAnswer: (part: Partial<PaperAnswers>) => void
}

const questions = {
  dateOrder: {
    legend: 'In dates such as 3/2/2026, what stands first?',
    hint: undefined,
    choices: { 'day-first': 'the day', 'month-first': 'the month' },
  },
  volumeUnit: {
    legend:
      'Some volumes are in ounces or cups, taken as those of the United States. Numbers without a unit are in',
    hint: '1 oz is 29.6 mL, 1 cup is 236.6 mL.',
    choices: { mL: 'mL', oz: 'ounces', cups: 'cups' },
  },
  temperatureUnit: {
    legend: 'Temperatures over 86 without a unit are in',
    hint: undefined,
    choices: { F: '°F', C: '°C: they are mistakes' },
  },
} as const

/** What the rows leave open: asked, and once answered still to be seen and changed. */
export function Questions({ asks, answers, onAnswer }: Props) {
  const names = (Object.keys(questions) as (keyof PaperAnswers)[]).filter(
    (name) => asks?.[name] || answers[name] !== null,
  )
  if (names.length === 0) return null
  return (
    <div className={css.questions}>
      {names.map((name) => {
        const { legend, hint, choices } = questions[name]
        return (
          <Group key={name} legend={legend} hint={hint}>
            {Object.entries(choices).map(([word, label]) => (
              <Choice
                key={word}
                type="radio"
                name={name}
                checked={answers[name] === word}
                onChange={() => onAnswer({ [name]: word })}
              >
                {label}
              </Choice>
            ))}
          </Group>
        )
      })}
    </div>
  )
}
