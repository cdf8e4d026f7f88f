import type { Overrides } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { type Limits, limitsOf, type ThresholdName } from './thresholds.ts'

/**
 * Tells whether the rules, at work under one rule set, read a threshold that another has otherwise. As long as they read
 * none, both find the same: a rule sees nothing of a rule set but the limits that it reads.
 *
 * One serves many walks, one after another: limits that are made once are read faster than ones made for each.
 */
export class Watch {
  /** Set by a read; whoever begins anew takes it back. */
  isRead = false
  private readonly made = new Map<Limits, Limits>()

  constructor(private readonly other: RuleSet) {}

  /** The limits of a rule set as they are, which say so when one is read that the other has otherwise. */
  limitsOf(rules: RuleSet, overrides?: Overrides): Limits {
    const own = limitsOf(rules, overrides)
    let watched = this.made.get(own)
    if (!watched) {
      watched = this.watch(own, limitsOf(this.other, overrides))
      // A drain's own limits are made anew each time.
      if (own === limitsOf(rules)) this.made.set(own, watched)
    }
    return watched
  }

  private watch(own: Limits, other: Limits): Limits {
    const names = Object.keys(own) as ThresholdName[]
    const telling = Object.fromEntries(
      names
        .filter((name) => own[name] !== other[name])
        .map((name) => [
          name,
          {
            get: () => {
              this.isRead = true
              return own[name]
            },
          },
        ]),
    )
    // Beneath the others, which stay plain values; so limits are never copied by their own names (tests/rules/watch.test.ts).
    const watched = Object.create(Object.create(null, telling))
    for (const name of names) if (own[name] === other[name]) watched[name] = own[name]
    return watched
  }
}
