import type { FindingCode } from '../domain/words.ts'

/** Which hazard a rule answers, and what it cannot see. Printed in docs/clinical-basis.md. */
export const hazards: Readonly<Record<FindingCode, { hazard: string; cannotSee: string }>> = {
  'drain-out': {
    hazard: 'A tube that came out: the tract closes within hours, and what it drained is shut in.',
    cannotSee: 'A tube that nobody looked at, and one that is out under its dressing.',
  },
  'drain-moved': {
    hazard: 'A tube that slips: side holes outside the cavity, leak, then loss.',
    cannotSee: 'A shift inside the body with the mark at the skin unchanged.',
  },
  'emergency-symptoms': {
    hazard: 'Sepsis, bleeding, embolism or a collapsed lung in somebody who waits for a call.',
    cannotSee: 'What is not said, and what a person plays down.',
  },
  unwell: {
    hazard: 'Loss of fluid or salts, early sepsis.',
    cannotSee: 'Causes that have nothing to do with the drain.',
  },
  'output-stopped': {
    hazard: 'A blocked, kinked or displaced tube: pressure and infection above it.',
    cannotSee: 'Flow beside the tube or past it into the body; hours in which nothing was measured.',
  },
  'output-decline': {
    hazard: 'A tube that blocks by and by, or a kidney that fails.',
    cannotSee:
      'What the other kidney does; little drinking on a hot day; a fall to 60% within two days. It is no measure of kidney injury: from 0.5 mL/kg/h a fall to 0.3 is not half.',
  },
  'output-surge': {
    hazard:
      'Loss of fluid and salts after relief of an obstruction, loss of bile, a cavity that fills again, fluid drawn too fast.',
    cannotSee: 'Volumes that went into a full bag; what was drunk.',
  },
  bleeding: {
    hazard: 'Injury of a vessel, erosion, bleeding under anticoagulants.',
    cannotSee: 'Bleeding inside that does not reach the bag.',
  },
  'infection-signs': {
    hazard: 'Infection of the system that is drained, of the tract or the skin.',
    cannotSee: 'Infection without fever, under medicines that lower it, or with a weak defence.',
  },
  'blocked-and-infected': {
    hazard: 'An obstructed and infected kidney or bile duct: an emergency.',
    cannotSee: 'Fever that nobody measured, an obstruction of the other side, blood tests.',
  },
  leak: {
    hazard: 'A blocked or displaced tube that empties beside itself; soaked, broken skin.',
    cannotSee: 'How much comes out beside the tube.',
  },
  'severe-pain': {
    hazard: 'Displacement, pressure, peritonitis, pleurisy.',
    cannotSee: 'Pain that is usual for the person, unless it grows.',
  },
  'cap-failing': {
    hazard: 'A capping trial that fails: nothing should come, so symptoms decide.',
    cannotSee: 'Rising bilirubin or creatinine.',
  },
  'flush-blocked': {
    hazard: 'A tube that is about to block.',
    cannotSee: 'A flush that goes in easily because the tube is no longer where it was.',
  },
  'flush-retained': {
    hazard: 'A flush that stays inside: one-way obstruction or a displaced tube.',
    cannotSee: 'Flushes that were given and not written down.',
  },
  'flush-missed': {
    hazard: 'A tube that blocks for want of a flush.',
    cannotSee: 'Flushes that were given and not written down.',
  },
  'dressing-overdue': {
    hazard: 'A dressing that no longer seals: infection, a tube that is pulled.',
    cannotSee: 'The dressing itself.',
  },
  'skin-broken': { hazard: 'Infection of the site, loss of the anchorage.', cannotSee: 'The skin itself.' },
  'log-missed': {
    hazard: 'Silence: somebody who is too ill to write, or no longer reached.',
    cannotSee: 'Why nothing came.',
  },
  'exchange-due': {
    hazard: 'A tube that stays longer than it lasts: encrustation, blockage.',
    cannotSee: 'Bookings that were made elsewhere and not recorded.',
  },
  'removal-check': {
    hazard: 'A tube that stays though it is no longer needed.',
    cannotSee:
      'The cavity: whether it is gone takes a clinician, often imaging. Little output can also be a blocked tube.',
  },
  'reading-suspect': {
    hazard: 'A slip of the pen, the unit or the clock that hides or feigns a change.',
    cannotSee: 'A wrong number of a plausible size.',
  },
}

/** Where sources contradict one another: what they say, what the rules do, and why. */
export const contradictions: readonly { on: string; sources: string; chosen: string }[] = [
  {
    on: 'Fever',
    sources:
      '38.0 °C (theii.org leaflet), above 38 (TG18), 38.1 scores in NEWS2, 38.3 (RCP SIRS box), 38.5 (Vancouver Coastal).',
    chosen:
      '38.0 °C: the lowest that a leaflet for patients with drains prints; a drain in an obstructed system leaves little time.',
  },
  {
    on: 'Removal of an abscess drain',
    sources:
      'under 10 mL a day on 2 days (Abdom Radiol 2022), under 20 on 3 days (theii.org), under 20 with imaging (AJR 2011).',
    chosen:
      'under 10 on 2 consecutive days: the figure with the published outcome. It asks for a look, it removes nothing.',
  },
  {
    on: 'Exchange of a nephrostomy',
    sources:
      '10–12 weeks (MSK), 3 months (The Christie), 3–6 months (Northern Care Alliance); malignant obstruction blocks at a median of 50 days.',
    chosen: 'no number of the rules: the order of each drain.',
  },
  {
    on: 'Hours without output',
    sources: '2 h (paediatric leaflet), 6–12 h (KDIGO), 12–18 h (NICE NG51), the last two for total urine.',
    chosen:
      '8 h, adjustable per drain: a night’s sleep, well before the sepsis limits, which speak of both kidneys.',
  },
  {
    on: 'Flushing',
    sources: 'none, twice a week, daily, every 8 h; 5–20 mL.',
    chosen: 'no number of the rules: the order of each drain.',
  },
  {
    on: 'Dressing',
    sources:
      'every 2 or 3 days (drain leaflets), gauze 2 days and film 7 days (CDC, for vein catheters, from memory), at once when damp, loosened or soiled (CDC 2002).',
    chosen: 'the order of each drain, and at once when it no longer seals.',
  },
  {
    on: 'Blood in the urine',
    sources:
      'clears in 24–48 h after a change (North Bristol), or comes and goes while the tube is in (North Cumbria).',
    chosen:
      'pink is expected for 48 h after a tube was put in, red and clots are not (bulb and pleural drains: 72 h for pink or red).',
  },
  {
    on: 'Pleural volume at one time',
    sources:
      'at most 1.5 L (BTS 2010), no link of volume to harm in 405 drainages, 1 L a session at home (common practice).',
    chosen: 'over 1 L within 24 h, over 1.5 L within 1 h.',
  },
  {
    on: 'Removal of a bulb drain',
    sources: 'under 30 mL on 2 days, on 3 days, or under 50.',
    chosen: 'under 30 on 2 days, per drain.',
  },
  {
    on: 'Severe pain',
    sources: '7 and more (Palos 2006) or 8 and more (Front Psychol 2016).',
    chosen: '7: the earlier call.',
  },
]
