import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, stated } from './telling.ts'

/** Is the skin at the site broken? The newest statement decides. */
export const skinBroken: DrainRule = {
  code: 'skin-broken',
  scope: 'drain',
  judge(drain) {
    const skin = drain.view.newest(drain.facts.skins)
    if (skin?.value !== 'broken') return quiet()
    return found('within-24h', () => ({
      says: `Broken skin at the site was reported ${localTime(drain.view.record.zone, skin.at)}.`,
      ends: 'It ends when a newer report says that the skin is whole.',
      evidence: [stated(skin, 'skin', skin.value)],
      threshold: criterion(
        'skin',
        'broken',
        'A sign to look, without a published tier for drains.',
        'common practice, no source',
      ),
    }))
  },
}
