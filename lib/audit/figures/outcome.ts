import type { FigureName, PublishedValue } from '../../domain/figures.ts'
import { kindLabels } from '../../domain/labels.ts'
import { outsideEventLabels } from '../../domain/outcomes-page.ts'
import type { DrainKind } from '../../domain/words.ts'
import type { Event } from '../../store/audit-facts.ts'
import { grouped } from '../../store/rows.ts'
import type { Facts } from './facts.ts'
import { byPatient, chartNote, exposures, exposuresInAll, silence } from './load.ts'
import { type Made, made, type Part, type Unit } from './made.ts'
import { adherence, complications } from './published.ts'
import { partsBy } from './trust.ts'
import { weekAt } from './weeks.ts'

/** What became of the patients, and whether they were heard. */
export const outcome = (facts: Facts): Made[] => [
  eventRate(facts),
  ...rates.map((rate) => complicationRate(facts, rate)),
  logAdherence(facts),
]

const eventUnits = (events: readonly Event[], { weeks }: Facts): Unit[] =>
  events.map(({ patientId, at }) => ({
    patient: patientId,
    week: weekAt(weeks, Date.parse(at)),
    n: 1,
    d: 0,
  }))

function eventRate(facts: Facts): Made {
  const { events, weeks } = facts
  const days = exposuresInAll(facts.drains)
  return made(
    {
      name: 'events-per-1000-days',
      group: 'outcome',
      label: 'Outside events per 1,000 catheter-days',
      unit: 'per-1000-days',
      kind: 'rate',
      counts: {
        numerator: 'outside events that were told to the clinic, of patients in follow-up with a drain',
        denominator: 'catheter-days at risk at home',
      },
      method: `${byPatient} ${chartNote}`,
      doesNotSay:
        'Events that nobody was told of are missing; the newest weeks are still incomplete. One illness can be several events. Those in hospital count, the days there do not.',
      units: [...eventUnits(events, facts), ...exposures(facts)],
      parts: partsBy(
        events,
        ({ kind }) => kind,
        outsideEventLabels,
        (some) => [...eventUnits(some, facts), ...days],
      ),
      beside: [
        ...silence(facts),
        { label: 'Events before or after that, in no figure', text: String(facts.otherEvents) },
      ],
    },
    weeks,
  )
}

type Rate = { name: FigureName; kind: keyof typeof complications; label: string; numerator: string }
const rates: readonly Rate[] = [
  {
    name: 'dislodgement-rate',
    kind: 'dislodgement',
    label: 'Dislodgements per 1,000 catheter-days',
    numerator: 'dislodgements told as outside events',
  },
  {
    name: 'obstruction-rate',
    kind: 'obstruction',
    label: 'Obstructions per 1,000 catheter-days',
    numerator: 'obstructions found, told as outside events',
  },
  {
    name: 'infection-rate',
    kind: 'infection',
    label: 'Infections per 1,000 catheter-days',
    numerator: 'infections proven, told as outside events',
  },
  {
    name: 'bleeding-rate',
    kind: 'bleeding',
    label: 'Bleedings per 1,000 catheter-days',
    numerator: 'bleedings told as outside events',
  },
]

/** A complication by the kind of its drain. An event that names no drain is of the patient's only one, or of none that is known. */
function complicationRate(facts: Facts, { name, kind, label, numerator }: Rate): Made {
  const { drains, weeks } = facts
  const events = facts.events.filter((event) => event.kind === kind)
  const drainsOf = grouped(drains, ({ patient }) => patient)
  const kindOf = ({ patientId, drain }: Event): DrainKind | 'unknown' => {
    const own = drainsOf.get(patientId) ?? []
    const found = drain === null && own.length === 1 ? own[0] : own.find((one) => one.drain === drain)
    return found?.kind ?? 'unknown'
  }
  const byKind = grouped(events, kindOf)
  const atRisk = grouped(drains, (drain) => drain.kind)
  const published: Readonly<Partial<Record<DrainKind, PublishedValue[]>>> = complications[kind]
  const parts: Part[] = (Object.keys(kindLabels) as DrainKind[]).flatMap((key) => {
    const own = atRisk.get(key)
    if (!own && !byKind.has(key)) return []
    const units = [...eventUnits(byKind.get(key) ?? [], facts), ...exposures({ ...facts, drains: own ?? [] })]
    return [{ key, label: kindLabels[key], units, published: published[key] ?? [] }]
  })
  const unknown = byKind.get('unknown')?.length ?? 0
  return made(
    {
      name,
      group: 'outcome',
      label,
      unit: 'per-1000-days',
      kind: 'rate',
      counts: { numerator, denominator: 'catheter-days at risk at home' },
      method: `${byPatient} ${chartNote}`,
      doesNotSay:
        'Published values come from other patients, other definitions and other spans of time: they stand beside it and are no target.',
      units: [...eventUnits(events, facts), ...exposures(facts)],
      parts,
      beside:
        unknown > 0
          ? [{ label: 'Events of which the kind of drain is not known, in no part', text: String(unknown) }]
          : [],
    },
    weeks,
  )
}

function logAdherence({ atRisk, heard, weeks }: Facts): Made {
  const units = [...atRisk].flatMap(([patient, days]) => {
    const own = heard.get(patient)
    return days.map((d, week) => ({ patient, week, n: Math.min(d, own?.[week] ?? 0), d }))
  })
  return made(
    {
      name: 'log-adherence',
      group: 'outcome',
      label: 'Days on which something was heard',
      unit: 'share',
      kind: 'share',
      counts: {
        numerator: 'days of the clinic’s calendar on which a report of the patient was received',
        denominator: 'patient-days at risk at home',
      },
      method: 'Interval by patient, Wilson. Weeks on a run chart.',
      doesNotSay:
        'Orders that ask for a log less often than daily count as silence between. A report is not yet a full log.',
      units,
      published: adherence,
    },
    weeks,
  )
}
