import { describe, expect, it } from 'vitest'
import type { Language } from '../../lib/domain/languages.ts'
import { languages } from '../../lib/domain/languages.ts'
import { reminderTexts } from '../../lib/domain/texts/reminder.ts'
import { englishGrade, spanishEase } from '../support/readability.ts'

const PHONE = '555 0100'
const sentences = (language: Language) =>
  Object.values(reminderTexts[language]).map((text) => (typeof text === 'string' ? text : text(PHONE)))

describe.each(Object.keys(languages) as Language[])('the words of a reminder, in %s', (language) => {
  it('are all there, and say nothing of health, of a tube or of measuring', () => {
    for (const text of sentences(language)) {
      expect(text.trim()).not.toBe('')
      expect(text).not.toMatch(/drain|tube|urin|kidney|bile|wound|infect|fever|report|log\b/i)
      expect(text).not.toMatch(/drenaje|sonda|riñón|bilis|herida|fiebre|informe/i)
      expect(text).not.toMatch(/أنبوب|كلية|مرارة|جرح|حمى/)
    }
  })
  it('name the clinic’s number where they speak of calling it', () => {
    const { questions, again } = reminderTexts[language]
    for (const text of [questions(PHONE), again(PHONE)]) expect(text).toContain(PHONE)
  })
})

it('the English and the Spanish ones need six years of school or fewer', () => {
  expect(englishGrade(sentences('en').join(' '))).toBeLessThanOrEqual(6)
  expect(spanishEase(sentences('es').join(' '))).toBeGreaterThanOrEqual(70) // 70 to 80 is the sixth grade
})
