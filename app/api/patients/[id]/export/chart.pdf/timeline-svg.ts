import { use } from 'echarts/core'
import { SVGRenderer } from 'echarts/renderers'
import { addDays, daysBetween, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { DrawnTimeline } from '@/lib/worklist/export/chart-pdf.ts'
import { axisOf, wholeOf, xOf } from '../../../../../ui/timeline/axis.ts'
import { init } from '../../../../../ui/timeline/echarts.ts'
import { type Happenings, happeningsOf } from '../../../../../ui/timeline/happenings.ts'
import { placesOf, timelineOption } from '../../../../../ui/timeline/option.ts'
import { type Output, outputsOf } from '../../../../../ui/timeline/outputs.ts'
import { daysAhead, type Picture } from '../../../../../ui/timeline/picture.ts'
import { tracksOf } from '../../../../../ui/timeline/tracks.ts'
import { paperInks } from './paper-inks.ts'

use([SVGRenderer])

/** So wide a picture is drawn before it is set on the page: its words are then about 8 points high. */
const WIDTH = 780
/** The days that are drawn with their numbers, and as many as can be told from one another. */
const NEAR = 14
const FAR = 90
/** With so few days one picture shows them all with their numbers. */
const ONE_DOES = 18
/** More strips would be too low to be read. */
const MOST_DRAINS = 6

/** The timeline of a patient's page for paper, with what it leaves out. */
export function timelineSvg(page: PatientPage): DrawnTimeline {
  const all = mostFlaggedFirst(page)
  const outputs = all.slice(0, MOST_DRAINS)
  const happenings = happeningsOf(page)
  const far = pictureOf(page, outputs, happenings, FAR)
  const near = pictureOf(page, outputs, happenings, NEAR)
  const pictures = far.axis.count > ONE_DOES ? [near, far] : [far]
  const names = all.slice(MOST_DRAINS).map(({ label }) => label.toLowerCase())
  return {
    pictures: pictures.map(drawn),
    says: `Net output, mL a day; days of ${page.record.timeZone}. Hatched: not a complete day. 600+: at least 600. Band: usual ± 10%. A day that is not known stays empty: it is no zero.`,
    leftOut: [
      ...earlier(all, far.axis.first),
      ...(names.length > 0
        ? [`Not drawn for want of room: ${names.join(', ')}. The CSV files have them.`]
        : []),
    ],
  }
}

function pictureOf(
  page: PatientPage,
  outputs: readonly Output[],
  happenings: Happenings,
  days: typeof NEAR | typeof FAR,
): Picture {
  const { timeZone: zone } = page.record
  const now = Date.parse(page.asOf)
  const placed = outputs.map((one) => one.placed).toSorted()[0] ?? localDate(page.record.enrolledAt, zone)
  const axis = axisOf(days, placed, now, zone, daysAhead(outputs, now, zone))
  return {
    axis,
    shown: wholeOf(axis),
    outputs,
    tracks: tracksOf(happenings, axis),
    feverC: page.limits.feverC,
    nowX: xOf(axis, now),
    slow: new Map(),
    courses: new Map(),
  }
}

function drawn(picture: Picture): DrawnTimeline['pictures'][number] {
  const { axis } = picture
  const { height, sliderTop } = placesOf(picture, WIDTH)
  const chart = init(null, undefined, { renderer: 'svg', ssr: true, width: WIDTH, height })
  // Nothing is moved on paper: no slider, no pointer.
  chart.setOption({ ...timelineOption(picture, WIDTH, paperInks), dataZoom: [], tooltip: { show: false } })
  const svg = chart.renderToSVGString()
  chart.dispose()
  return {
    svg: forPaper(svg),
    width: WIDTH,
    height: Math.min(height, sliderTop),
    title: `${fullDate(axis.first)} to ${fullDate(addDays(axis.first, axis.count - 1))}`,
  }
}

/** The fonts of paper lack these two signs: dots for days that are not known, and 'at least'. */
const forPaper = (svg: string) =>
  svg
    .replaceAll('⋮', ':')
    .replace(/≥ (-?[\d.]+)/g, '$1+')
    .replaceAll('≥', 'at least')

/** The drains on which something stands first, else in their own order. */
function mostFlaggedFirst(page: PatientPage): Output[] {
  const flagged = new Set(
    page.flags.filter(({ state }) => state === 'open' || state === 'owed').map(({ drain }) => drain),
  )
  const rank = ({ id }: Output) => (flagged.has(id) ? 0 : 1)
  return outputsOf(page, 'each').toSorted((a, b) => rank(a) - rank(b))
}

/** How much lies before the first day that is drawn. */
function earlier(outputs: readonly Output[], first: string): string[] {
  const begins = outputs.flatMap(({ days }) => days.slice(0, 1).map(({ date }) => date)).toSorted()[0]
  if (begins === undefined || begins >= first) return []
  return [
    `Left out: ${daysBetween(begins, first)} days before ${fullDate(first)}, from ${fullDate(begins)} on. The CSV files and the screen have them.`,
  ]
}
