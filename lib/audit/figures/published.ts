import type { PublishedValue } from '../../domain/figures.ts'
import type { Confidence, DrainKind } from '../../domain/words.ts'

type Complication = 'dislodgement' | 'obstruction' | 'infection' | 'bleeding'

const value = (text: string, source: string, confidence: Confidence = 'published'): PublishedValue => ({
  text,
  source,
  confidence,
})
const COPY: Confidence = 'published, secondary copy'
const MEMORY: Confidence = 'from memory'

const standard = 'SCVIR/ACR, by Lewis and Patel, Clin Radiol 2004;59:171'
const singapore = 'Ann Acad Med Singap 2002;31:76 (273 patients)'
const month = 'JPMA 2013;63(7) (300 patients)'

/**
 * What was published of each complication by kind of drain: shares of patients or drains and, where a constant hazard was worked out from
 * them, per 1,000 catheter-days. They come from other patients, other follow-up and other definitions.
 */
export const complications: Readonly<
  Record<Complication, Readonly<Partial<Record<DrainKind, PublishedValue[]>>>>
> = {
  dislodgement: {
    nephrostomy: [
      value(
        'lost 26% in 6 months and 36% in 12 (about 1.65 and 1.22 per 1,000 days, our arithmetic)',
        'doi 10.1097/01-RVI.0000235703.68819.8C as shown (283 patients)',
      ),
      value('2.3% in 1 month (about 0.78 per 1,000 days, our arithmetic)', month),
      value('11.9%', singapore),
      value('14.4%', 'Radiol Med 2006;111:562 (299 patients)'),
    ],
    cholecystostomy: [value('6.2 to 11.1% across series', 'PMC6204498, table 2')],
  },
  obstruction: {
    nephrostomy: [
      value('5% in 1 month (about 1.71 per 1,000 days, our arithmetic)', month),
      value('4.1%', singapore),
    ],
  },
  infection: {
    nephrostomy: [
      value(
        'pyelonephritis 10% in the first month and 19% in 90 days, with cancer (about 3.5 and 2.34 per 1,000 days, our arithmetic)',
        'Bahu, J Urol 2013 (200 patients)',
      ),
      value('septic shock: audit standard under 4%', standard, COPY),
    ],
    biliary: [
      value('cholangitis 26.3% of those not infected before', 'Turan 2021, PMC9388415 (331 patients)'),
      value('sepsis: threshold 5%', 'Saad, JVIR 2010;21:789', MEMORY),
    ],
    collection: [value('septic shock: threshold 4%; bacteraemia 10%', 'Wallace, JVIR 2010;21:431', MEMORY)],
    pleural: [value('5.7% (0 to 12 across series)', 'JTD review 84584; BMJ Open Respir Res 2016;3:e000123')],
  },
  bleeding: {
    nephrostomy: [
      value('major haemorrhage: audit standard under 4%', standard, COPY),
      value('transfusion 4.3%', singapore),
    ],
    biliary: [value('haemorrhage: threshold 5%', 'Saad, JVIR 2010;21:789', MEMORY)],
    collection: [value('transfusion: threshold 2%', 'Wallace, JVIR 2010;21:431', MEMORY)],
  },
}

export const adherence: PublishedValue[] = [
  value('daily reports on 56% of days within 6 months, 39% after a year', 'Daly, by an editorial', COPY),
]
