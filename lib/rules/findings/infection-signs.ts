import { chills, counting, fevers, lowestLimit } from '../series/statements.ts'
import { type DrainRule, found, type PatientRule, quiet } from './rule.ts'
import { criterion, localTime, stated, threshold } from './telling.ts'

/**
 * Is there fever or a shaking chill?
 * Counts while it is in the newest statement, and for 24 h after any: one normal reading does not cure.
 */
export const feverOrChills: PatientRule = {
  code: 'infection-signs',
  scope: 'patient',
  judge(view, at) {
    const feverC = lowestLimit(view, 'feverC')
    const fever = fevers(view, at, feverC)
    const shaking = chills(view, at)
    if (!fever.lead && !shaking.lead) return quiet()
    const zone = view.record.zone
    return found(
      'within-1h',
      () => {
        const said: string[] = []
        if (fever.lead)
          said.push(
            `Temperature ${fever.lead.value} °C reported ${localTime(zone, fever.lead.at)} (limit ${feverC} °C)`,
          )
        if (shaking.lead)
          said.push(`${said.length ? 'chills' : 'Chills'} reported ${localTime(zone, shaking.lead.at)}`)
        return {
          says: `${said.join(', and ')}.`,
          ends: 'It ends once the newest statement is free of both and 24 h have passed since either was last stated.',
          evidence: [
            ...(fever.lead ? [stated(fever.lead, 'temperature', fever.lead.value, 'Cel')] : []),
            ...(shaking.lead ? [stated(shaking.lead, 'chills', true)] : []),
          ],
          threshold: threshold('feverC', { feverC }),
        }
      },
      Math.min(
        fever.lead ? fever.until : Number.POSITIVE_INFINITY,
        shaking.lead ? shaking.until : Number.POSITIVE_INFINITY,
      ),
    )
  },
}

/**
 * Does the drain or its site look infected?
 * Cloudy fluid or pus (not in a collection, where pus is what is drained), red skin or pus at the site.
 */
export const siteInfection: DrainRule = {
  code: 'infection-signs',
  scope: 'drain',
  judge(drain, at) {
    const { view, facts, limits } = drain
    const skin = view.newest(facts.skins)
    const badSkin = skin && (skin.value === 'red' || skin.value === 'pus') ? skin : null
    const fluid = counting(
      view,
      facts.appearances,
      (value) =>
        (value === 'cloudy' || value === 'pus') &&
        facts.kind !== 'collection' &&
        value !== facts.usualAppearance,
      at,
      limits.symptomHoldHours,
    )
    if (!badSkin && !fluid.lead) return quiet()
    const zone = view.record.zone
    return found(
      'within-24h',
      () => {
        const said: string[] = []
        if (fluid.lead)
          said.push(
            `${fluid.lead.value === 'pus' ? 'Pus' : 'Cloudy fluid'} in the drain, reported ${localTime(zone, fluid.lead.at)}`,
          )
        if (badSkin)
          said.push(
            `${said.length ? 'skin' : 'Skin'} at the site ${badSkin.value === 'pus' ? 'with pus' : 'red'}, reported ${localTime(zone, badSkin.at)}`,
          )
        return {
          says: `${said.join('; ')}.`,
          ends: 'It ends once the newest report gives clean skin and another look, and 24 h have passed since such fluid was last reported.',
          evidence: [
            ...(fluid.lead ? [stated(fluid.lead, 'appearance', fluid.lead.value)] : []),
            ...(badSkin ? [stated(badSkin, 'skin', badSkin.value)] : []),
          ],
          threshold: criterion(
            'site',
            badSkin?.value ?? fluid.lead?.value ?? '',
            'Signs of infection as leaflets for patients with drains name them.',
            'common practice, no source',
          ),
        }
      },
      fluid.lead ? fluid.until : undefined,
    )
  },
}
