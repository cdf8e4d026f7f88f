import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'
import { describe, expect, it } from 'vitest'
import {
  type AdviceContext,
  type AdviceDrain,
  adviceOf,
  adviceFor as adviceWith,
} from '../../lib/domain/advice.ts'
import { AdviceName } from '../../lib/domain/advice-text.ts'
import { adviceNames, adviceUrgency } from '../../lib/domain/advice-urgency.ts'
import { Language } from '../../lib/domain/languages.ts'
import { Advice, type Submission } from '../../lib/domain/submission.ts'
import { standardAdvice } from '../../lib/domain/texts/advice.ts'
import {
  Appearance,
  DrainKind,
  DressingFound,
  Ease,
  General,
  Position,
  Skin,
} from '../../lib/domain/words.ts'

const at = '2026-03-03T08:00:00-07:00'
const tubeOf = (more: Pick<AdviceDrain, 'kind' | 'course'>): AdviceDrain =>
  Object.freeze({
    id: 'd1',
    capped: false,
    placedAt: '2026-02-20T08:00:00-07:00',
    usualAppearance: null,
    ...more,
  })
const kidney = tubeOf({ kind: 'nephrostomy', course: 'steady' })
const abscess = tubeOf({ kind: 'collection', course: 'resolving' })
const bulb = tubeOf({ kind: 'bulb', course: 'resolving' })
const pleural = tubeOf({ kind: 'pleural', course: 'resolving' })
const limits = { feverC: 38, severePain: 7 }
const context: AdviceContext = Object.freeze({ limits, texts: standardAdvice.en, now: at })
const adviceFor = (report: Submission, drains: AdviceDrain[], more: Partial<AdviceContext> = {}) =>
  adviceWith(report, drains, { ...context, ...more })
const recent = [
  { at: '2026-02-28T08:00:00-07:00', volumeMl: 410 },
  { at: '2026-03-01T08:00:00-07:00', volumeMl: 390 },
  { at: '2026-03-02T08:00:00-07:00', volumeMl: 400 },
]

const texts = (report: Submission, drain = kidney) => adviceFor(report, [drain]).map((advice) => advice.text)
const first = (report: Submission, drain = kidney) => adviceFor(report, [drain])[0]
const symptoms = (more: Partial<NonNullable<Submission['symptoms']>>): Submission => ({
  symptoms: { at, ...more },
})
const tube = (more: object): Submission => symptoms({ drains: [{ drain: 'd1', ...more }] })
const reading = (volumeMl: number | null, appearance?: Appearance): Submission => ({
  readings: [{ drain: 'd1', at, volumeMl, ...(appearance ? { appearance } : {}) }],
})
const says = (name: AdviceName) => standardAdvice.en[name].text
const named = (name: AdviceName) => ({ name, urgency: adviceUrgency[name], ...standardAdvice.en[name] })

describe('advice', () => {
  it.each(['short-of-breath', 'chest-pain', 'fainted', 'confused', 'heavy-bleeding'] as const)(
    'sends %s to the local emergency number first of all',
    (symptom) => {
      expect(first(symptoms({ general: ['vomiting', symptom], pain: 8, temperatureC: 39 }))).toEqual(
        named('emergency-symptoms'),
      )
    },
  )

  it('covers the site and sends to the emergency department when a tube is out', () => {
    const advice = first(tube({ position: 'out' }))
    expect(advice?.urgency).toBe('emergency')
    expect(advice?.text).toMatch(/Do not push the tube back in\. Cover the place with a clean dressing\./)
    expect(advice?.text).toMatch(/nearest emergency department now/)
  })

  it('has the clinic rung at once for a bulb drain that is out', () => {
    expect(first(tube({ position: 'out' }), bulb)).toEqual(named('bulb-out'))
  })

  it.each([
    ['38.0 °C', { temperatureC: 38 }],
    ['chills without a thermometer', { temperatureC: null, chills: true }],
  ])('has the clinic rung now for %s', (_, part) => {
    expect(first(symptoms(part))).toEqual(named('fever'))
  })

  it('lets 37.9 °C pass', () => {
    expect(texts(symptoms({ temperatureC: 37.9, chills: false }))).toEqual([
      says('keep-watching'),
      says('clinic-first'),
    ])
  })

  it.each([
    ['not draining', { drains: [{ drain: 'd1', draining: false }] }],
    ['a leak', { drains: [{ drain: 'd1', leak: true }] }],
    ['a moved tube', { drains: [{ drain: 'd1', position: 'moved' as const }] }],
  ])('sends a fever with %s of a kidney tube to the emergency department', (_, part) => {
    expect(first(symptoms({ temperatureC: 38.4, ...part }))?.text).toBe(says('blocked-and-infected'))
  })

  it('sends a fever with a low output to the emergency department, from the readings before', () => {
    const report = { ...reading(120), ...symptoms({ temperatureC: 38.6 }) }
    expect(first(report, { ...kidney, recent })?.text).toBe(says('blocked-and-infected'))
    expect(first({ ...reading(380), ...symptoms({ temperatureC: 38.6 }) }, { ...kidney, recent })?.text).toBe(
      says('fever'),
    )
  })

  it('does not send a fever with a leaking wound bulb there, but has the clinic rung', () => {
    const advice = adviceFor(symptoms({ temperatureC: 38.4, drains: [{ drain: 'd1', leak: true }] }), [bulb])
    expect(advice[0]).toEqual(named('fever'))
  })

  it('has a capped tube with pain, leak or fever rung about, and never asks why it does not drain', () => {
    const capped = { ...kidney, capped: true }
    expect(
      texts({ ...reading(0), ...symptoms({ pain: 5, drains: [{ drain: 'd1', draining: false }] }) }, capped),
    ).toEqual([says('cap-failing'), says('clinic-first')])
    expect(first(symptoms({ chills: true }), capped)?.text).toBe(says('blocked-and-infected'))
  })

  it('has kinks and taps looked for before the call when nothing drains', () => {
    expect(first(tube({ draining: false }))).toEqual(named('not-draining'))
    expect(first(reading(0))).toEqual(named('not-draining'))
    expect(first(reading(120), { ...kidney, recent })?.text).toBe(says('not-draining'))
  })

  it('takes little from a drain that should dwindle for no alarm', () => {
    expect(first(reading(0), abscess)?.text).toBe(says('keep-watching'))
    expect(first(reading(5), { ...abscess, recent })?.text).toBe(says('keep-watching'))
  })

  it('never judges what could not be measured', () => {
    expect(first(reading(null), { ...kidney, recent })?.text).toBe(says('keep-watching'))
  })

  it.each([
    ['red fluid', reading(300, 'red'), 'bleeding'],
    ['clots', reading(300, 'clots'), 'bleeding'],
    ['pink fluid', reading(300, 'pink'), 'pink-fluid'],
    ['cloudy fluid', reading(300, 'cloudy'), 'cloudy-fluid'],
    ['a moved tube', tube({ position: 'moved' }), 'drain-moved'],
    ['a leak', tube({ leak: true }), 'leak'],
    ['pain of 7', symptoms({ pain: 7 }), 'severe-pain'],
    ['vomiting', symptoms({ general: ['vomiting'] }), 'unwell'],
    ['a blocked flush', { flushes: [{ drain: 'd1', at, volumeMl: null, ease: 'blocked' }] }, 'flush-blocked'],
    ['red skin', { dressings: [{ drain: 'd1', at, skin: 'red', changed: true }] }, 'skin'],
    [
      'a wet dressing left on',
      { dressings: [{ drain: 'd1', at, found: 'damp', changed: false }] },
      'dressing',
    ],
  ] as const)('has its text for %s', (_, report, name) => {
    expect(first(report as unknown as Submission)).toEqual(named(name))
  })

  it('sends blood with dizziness to the emergency number', () => {
    expect(first({ ...reading(300, 'red'), ...symptoms({ general: ['dizzy'] }) })?.text).toBe(
      says('bleeding-and-faint'),
    )
  })

  it('takes pus in an abscess drain for what it is there for', () => {
    expect(first(reading(40, 'pus'), abscess)?.text).toBe(says('keep-watching'))
  })

  it('holds a large pleural volume: over 1000 mL today, over 1500 mL now', () => {
    expect(first(reading(1000), pleural)?.text).toBe(says('keep-watching'))
    expect(first(reading(1001), pleural)?.text).toBe(says('large-volume'))
    expect(first(reading(1501), pleural)?.text).toBe(says('large-volume-now'))
  })

  it('reads each drain by its own answers', () => {
    const other: AdviceDrain = { ...bulb, id: 'd2' }
    const report = symptoms({ drains: [{ drain: 'd2', position: 'out' }] })
    expect(adviceFor(report, [kidney, other])[0]?.text).toBe(says('bulb-out'))
  })

  it('says each thing once, the most urgent first, and the own clinic last, whatever the report says', () => {
    const rank = ['emergency', 'call-now', 'call-today', 'information']
    for (const kind of DrainKind.options)
      for (const position of Position.options)
        for (const found of DressingFound.options)
          for (const [i, appearance] of Appearance.options.entries()) {
            const report: Submission = Object.freeze({
              readings: [{ drain: 'd1', at, volumeMl: i * 300, appearance }],
              flushes: [{ drain: 'd1', at, ease: Ease.options[i % 3] }],
              dressings: [{ drain: 'd1', at, found, skin: Skin.options[i % 4], changed: i % 2 === 0 }],
              symptoms: {
                at,
                pain: i % 11,
                general: General.options.slice(i),
                drains: [{ drain: 'd1', position }],
              },
            })
            const course = i % 2 ? 'steady' : 'resolving'
            const advice = adviceFor(report, [{ ...kidney, kind, course, capped: i % 3 === 0 }])
            const ranks = advice.map((one) => rank.indexOf(one.urgency))
            expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
            expect(new Set(advice.map((one) => one.text)).size).toBe(advice.length)
            expect(advice.at(-1)?.text).toBe(says('clinic-first'))
            for (const one of advice) Advice.parse(one)
          }
  })
})

describe('advice by what is usual and expected', () => {
  it('holds a temperature and a pain against the thresholds that it is given', () => {
    const strict = { limits: { feverC: 37.5, severePain: 5 } }
    expect(adviceFor(symptoms({ temperatureC: 37.5 }), [kidney], strict)[0]?.name).toBe('fever')
    expect(adviceFor(symptoms({ pain: 5 }), [kidney], strict)[0]?.name).toBe('severe-pain')
    expect(adviceFor(symptoms({ pain: 5 }), [kidney])[0]?.name).toBe('keep-watching')
  })

  const putIn = (drain: AdviceDrain, hours: number): AdviceDrain => ({
    ...drain,
    placedAt: new Date(Date.parse(at) - hours * 3_600_000).toISOString(),
  })
  it.each([
    ['pink', kidney, 47, 'keep-watching'],
    ['pink', kidney, 48, 'pink-fluid'],
    ['red', kidney, 1, 'bleeding'],
    ['pink', bulb, 71, 'keep-watching'],
    ['red', bulb, 71, 'keep-watching'],
    ['red', pleural, 71, 'keep-watching'],
    ['red', pleural, 72, 'bleeding'],
    ['clots', bulb, 1, 'bleeding'],
  ] as const)('%s fluid so many hours after a tube was put in', (appearance, drain, hours, name) => {
    expect(adviceFor(reading(100, appearance), [putIn(drain, hours)])[0]?.name).toBe(name)
  })

  it('takes a look that was said to be usual for none', () => {
    const usual = { ...kidney, usualAppearance: 'cloudy' as const }
    expect(adviceFor(reading(400, 'cloudy'), [usual])[0]?.name).toBe('keep-watching')
    expect(adviceFor(reading(400, 'pink'), [usual])[0]?.name).toBe('pink-fluid')
  })

  it('does not judge a low output of last week, typed in from paper, by the readings since', () => {
    const drain = { ...kidney, recent: [...recent, { at: '2026-03-04T08:00:00-07:00', volumeMl: 400 }] }
    expect(adviceFor(reading(100), [drain])[0]?.name).toBe('keep-watching')
  })

  it('nor a pleural volume that is older than a day', () => {
    const later = { now: '2026-03-04T08:00:01-07:00' }
    expect(adviceFor(reading(1600), [pleural], later)[0]?.name).toBe('keep-watching')
  })

  it('names the version of each text, and whether it was read', () => {
    const own = { ...standardAdvice.es, leak: { text: 'Llame ahora.', version: '3', read: true } }
    const [first, last] = adviceFor(tube({ leak: true }), [kidney], { texts: own })
    expect(first).toEqual({
      name: 'leak',
      urgency: 'call-now',
      text: 'Llame ahora.',
      version: '3',
      read: true,
    })
    expect(last).toMatchObject({ name: 'clinic-first', version: 'standard', read: false })
  })

  it('says nothing weaker beside what sends further', () => {
    expect(
      adviceOf(['fever', 'leak', 'blocked-and-infected'], standardAdvice.en).map(({ name }) => name),
    ).toEqual(['blocked-and-infected', 'leak', 'clinic-first'])
  })
})

describe('advice texts', () => {
  const english = Object.entries(standardAdvice.en)
  const withUrgency = (urgency: string) =>
    english.filter(([name]) => adviceUrgency[name as AdviceName] === urgency)

  it('are there for each case in each language, and stand in the order of their urgency', () => {
    expect(adviceNames).toEqual(AdviceName.options)
    for (const language of Language.options)
      expect(Object.keys(standardAdvice[language]).toSorted()).toEqual(AdviceName.options.toSorted())
    const order = ['emergency', 'call-now', 'call-today', 'information']
    const ranks = adviceNames.map((name) => order.indexOf(adviceUrgency[name]))
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b))
  })

  it('count a translation as unread until a qualified person has read it', () => {
    expect(Language.options.map((language) => standardAdvice[language].fever.read)).toEqual([
      true,
      false,
      false,
    ])
  })

  it.each(english)('read at grade 6 or below: %s', (_, { text }) => {
    const words = text.match(/[\p{L}']+/gu) ?? []
    const sentence = text.match(/[.?!]/g)?.length ?? 0
    const grade = fleschKincaid({ sentence, word: words.length, syllable: syllable(text) })
    expect(grade).toBeLessThanOrEqual(6)
  })

  it.each(Object.entries(standardAdvice.es))('read at grade 6 or below in Spanish: %s', (_, { text }) => {
    expect(crawford(text)).toBeLessThanOrEqual(6)
  })

  it.each(Object.entries(standardAdvice.ar))('keep to short sentences in Arabic: %s', (_, { text }) => {
    for (const sentence of text.split(/[.؟!]/))
      expect(sentence.trim().split(/\s+/).length).toBeLessThanOrEqual(12)
  })

  it.each(english)('name no disease: %s', (_, { text }) => {
    expect(text).not.toMatch(/infect|sepsis|block(ed|age)|obstruct|diagnos|pneumo|haemorr|hemorr|cholang/i)
  })

  it.each(Object.entries(standardAdvice.es))('name no disease in Spanish: %s', (_, { text }) => {
    expect(text).not.toMatch(/infec|sepsis|obstru|diagn|neumo|hemorr|colang/i)
  })

  it.each(withUrgency('emergency'))('send at once where it is an emergency: %s', (_, { text }) => {
    expect(text).toMatch(/(Call your local emergency number|Go to the nearest emergency department) now/)
  })

  it.each(withUrgency('call-now'))('say to call now where it cannot wait: %s', (name, { text }) => {
    expect(text).toMatch(/[Cc]all your clinic now/)
    expect(standardAdvice.es[name as AdviceName].text).toMatch(/[Ll]lame ahora a su clínica/)
    expect(standardAdvice.ar[name as AdviceName].text).toContain('اتصل الآن بعيادتك')
  })
})

/** Crawford's reading grade of Spanish: Crawford AN, 1989, from sentences and syllables per 100 words. */
function crawford(text: string): number {
  const words = text.match(/\p{L}+/gu) ?? []
  const sentences = text.match(/[.?!]/g)?.length ?? 1
  const per100 = 100 / words.length
  const syllables = words.reduce((sum, word) => sum + spanishSyllables(word), 0)
  return -0.205 * sentences * per100 + 0.049 * syllables * per100 - 3.407
}

/** Groups of vowels, where a strong vowel beside a strong one, or an accented weak one, begins a syllable of its own. */
const spanishSyllables = (word: string): number =>
  word
    .toLowerCase()
    .replace(/qu|gu(?=[ei])/g, 'k')
    .match(/[iuü]?[aeoáéó][iuy]?|[íú]|[iuü]+/g)?.length ?? 1
