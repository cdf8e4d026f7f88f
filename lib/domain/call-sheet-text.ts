import { numberToCall } from './call-person.ts'
import type { CallSheet, SheetPart } from './call-sheet.ts'
import { inPlace, nameOf } from './call-sheet-drains.ts'
import { type Line, textOf } from './call-sheet-line.ts'
import type { AskedAnswer } from './callback.ts'
import { dayAndTime, fullDate } from './local-time.ts'
import type { PatientPage } from './patient-page.ts'
import { cautions, PROJECT } from './project.ts'

/** What is said of texts that ship with the project, wherever a caller reads them. */
export const notApproved = 'Shipped texts, not approved by this clinic.'

/** Whose the sheet is, by two identifiers, and the number to call. */
export const sheetHead = (page: PatientPage): string => {
  const phone = numberToCall(page)
  const { name, birthDate, recordNumber } = page.patient
  return [name, fullDate(birthDate), recordNumber, phone ? `call ${phone}` : null].filter(Boolean).join(' · ')
}

/** Who took the sheet off the screen, and when. */
export const sheetTaken = (page: PatientPage, by: string, now: number): string =>
  `by ${by}, ${dayAndTime(now, page.clinic.timeZone)} (${page.clinic.timeZone.replaceAll('_', ' ')}). ${page.clinic.name}, ${PROJECT}.`

type Taken = { by: string; now: number; asked: readonly AskedAnswer[] }

/** The whole sheet as plain text, with whose it is, when it was taken and by whom, and the cautions. */
export function sheetText(page: PatientPage, sheet: CallSheet, { by, now, asked }: Taken): string {
  const { situation, background, seen, request } = sheet
  const questions = [...request.ask, ...request.askMore]
  const several = inPlace(page).length > 1
  const answered = asked.map(({ question, drain, answer }) =>
    `[x] ${several && drain ? `${nameOf(page, drain)}: ` : ''}${question} ${answer}`.trimEnd(),
  )
  const open = questions
    .filter(({ question, drain }) => !asked.some((one) => one.question === question && one.drain === drain))
    .map(({ who, question }) => `[ ] ${who ? `${who}: ` : ''}${question}`)
  const parts: [string, string[]][] = [
    [
      'SITUATION',
      situation.map(
        ({ lead, rest, owed }) =>
          textOf(lead) + textOf(rest) + (owed ? ' Over by now, but nobody has spoken to them.' : ''),
      ),
    ],
    ['BACKGROUND', [...texts([...background.lines, ...background.person]), ...texts(background.more)]],
    ['ASSESSMENT', whole(seen)],
    ['ASK', [...answered, ...open]],
    ['ADVISE', texts(request.advise)],
    ['WHEN TO ESCALATE, BY LOCAL PROTOCOL', texts(request.escalate)],
  ]
  const body = parts
    .filter(([, lines]) => lines.length > 0)
    .map(([title, lines]) => [title, ...lines.map((line) => `- ${line}`)].join('\n'))
  return [
    ['CALL SHEET', sheetHead(page), `Copied ${sheetTaken(page, by, now)}`].join('\n'),
    ...body,
    [...(request.standard.length > 0 ? [notApproved] : []), cautions].join('\n'),
  ].join('\n\n')
}

const texts = (lines: readonly Line[]) => lines.map(textOf)
const whole = ({ lines, more }: SheetPart) => texts([...lines, ...more])
