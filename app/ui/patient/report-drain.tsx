'use client'

import { appearanceLabels, easeLabels, foundLabels, positionLabels, skinLabels } from '@/lib/domain/labels.ts'
import { UNCONFIRMED_MAX_ML } from '@/lib/domain/limits.ts'
import { Choice, Field } from '../parts/field.tsx'
import { numberOf } from '../parts/number-text.ts'
import { Select } from '../parts/select.tsx'
import css from './report.module.css'
import {
  type DressingDraft,
  emptyReading,
  type FlushDraft,
  type ReadingDraft,
  type ReportDraft,
  type SiteDraft,
} from './report-draft.ts'
import { ReportTime } from './report-time.tsx'

export const askedLabels = { yes: 'yes', no: 'no' } as const
export const NOT_ASKED = 'not asked'

type Set = (part: Partial<ReportDraft>) => void
type Props = { drain: string; label: string; draft: ReportDraft; set: Set; faults: Record<string, string> }

const replaced = <T,>(list: T[], at: number, part: Partial<T>): T[] =>
  list.map((one, i) => (i === at ? { ...one, ...part } : one))

/** What is reported of one drain: what came, the flush, the dressing, the site. */
export function DrainPart({ drain, label, draft, set, faults }: Props) {
  const own = <T extends { drain: string }>(list: T[]) =>
    list.map((one, i) => ({ one, i })).filter(({ one }) => one.drain === drain)
  return (
    <fieldset className={css.part}>
      <legend>{label}</legend>
      {own(draft.readings).map(({ one, i }) => (
        <ReadingRow
          key={`reading ${i}`}
          reading={one}
          opened={draft.opened}
          set={(part) => set({ readings: replaced(draft.readings, i, part) })}
          faults={faults}
          path={`readings.${i}`}
        />
      ))}
      <button
        type="button"
        data-quiet
        className={css.add}
        onClick={() => set({ readings: [...draft.readings, emptyReading(drain, draft.at)] })}
      >
        Another emptying of {label}
      </button>
      {own(draft.flushes).map(({ one, i }) => (
        <FlushRow
          key={`flush ${i}`}
          flush={one}
          opened={draft.opened}
          set={(part) => set({ flushes: replaced(draft.flushes, i, part) })}
          faults={faults}
          path={`flushes.${i}`}
        />
      ))}
      {own(draft.dressings).map(({ one, i }) => (
        <DressingRow
          key={`dressing ${i}`}
          dressing={one}
          opened={draft.opened}
          set={(part) => set({ dressings: replaced(draft.dressings, i, part) })}
          faults={faults}
          path={`dressings.${i}`}
        />
      ))}
      {own(draft.sites).map(({ one, i }) => (
        <SiteRow
          key={`site ${i}`}
          site={one}
          set={(part) => set({ sites: replaced(draft.sites, i, part) })}
        />
      ))}
    </fieldset>
  )
}

type Row = { faults: Record<string, string>; path: string; opened: string | null }

const UNMEASURED = { unmeasured: true, volume: '' }

function ReadingRow({
  reading,
  set,
  faults,
  path,
  opened,
}: Row & { reading: ReadingDraft; set: (part: Partial<ReadingDraft>) => void }) {
  const isLarge = (numberOf(reading.volume) ?? 0) > UNCONFIRMED_MAX_ML
  return (
    <div className={css.row}>
      <Field label="Came out, mL" fault={faults[`${path}.volume`]}>
        {(wired) => (
          <input
            {...wired}
            inputMode="decimal"
            size={7}
            value={reading.volume}
            disabled={reading.unmeasured}
            onChange={(event) =>
              // A question mark is the short way to say that it could not be measured.
              set(event.target.value.trim() === '?' ? UNMEASURED : { volume: event.target.value })
            }
          />
        )}
      </Field>
      <ReportTime opened={opened} value={reading.at} set={(at) => set({ at })} fault={faults[`${path}.at`]} />
      <Field label="Looks">
        {(wired) => (
          <Select
            {...wired}
            value={reading.appearance}
            onChange={(appearance) => set({ appearance })}
            labels={appearanceLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
      <div className={css.checks}>
        <Choice
          type="checkbox"
          checked={reading.unmeasured}
          onChange={(unmeasured) => set({ unmeasured, volume: unmeasured ? '' : reading.volume })}
        >
          could not measure (?)
        </Choice>
        <Choice type="checkbox" checked={reading.total} onChange={(total) => set({ total })}>
          sum of several emptyings
        </Choice>
        {isLarge ? (
          <Choice type="checkbox" checked={reading.confirmed} onChange={(confirmed) => set({ confirmed })}>
            asked again: over {UNCONFIRMED_MAX_ML} mL is meant
          </Choice>
        ) : null}
      </div>
    </div>
  )
}

function FlushRow({
  flush,
  set,
  faults,
  path,
  opened,
}: Row & { flush: FlushDraft; set: (part: Partial<FlushDraft>) => void }) {
  return (
    <div className={css.row}>
      <div className={css.lead}>
        <Choice type="checkbox" checked={flush.given} onChange={(given) => set({ given })}>
          Flushed
        </Choice>
      </div>
      {flush.given ? (
        <>
          <Field label="mL" fault={faults[`${path}.volume`]}>
            {(wired) => (
              <input
                {...wired}
                inputMode="decimal"
                size={4}
                value={flush.volume}
                onChange={(event) => set({ volume: event.target.value })}
              />
            )}
          </Field>
          <ReportTime
            opened={opened}
            value={flush.at}
            set={(at) => set({ at })}
            fault={faults[`${path}.at`]}
          />
          <Field label="Went in">
            {(wired) => (
              <Select
                {...wired}
                value={flush.ease}
                onChange={(ease) => set({ ease })}
                labels={easeLabels}
                empty={NOT_ASKED}
              />
            )}
          </Field>
        </>
      ) : null}
    </div>
  )
}

function DressingRow({
  dressing,
  set,
  faults,
  path,
  opened,
}: Row & { dressing: DressingDraft; set: (part: Partial<DressingDraft>) => void }) {
  const isSaid = dressing.changed !== '' || dressing.found !== '' || dressing.skin !== ''
  return (
    <div className={css.row}>
      <Field label="Dressing changed">
        {(wired) => (
          <Select
            {...wired}
            value={dressing.changed}
            onChange={(changed) => set({ changed })}
            labels={askedLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
      <Field label="Found">
        {(wired) => (
          <Select
            {...wired}
            value={dressing.found}
            onChange={(found) => set({ found })}
            labels={foundLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
      <Field label="Skin">
        {(wired) => (
          <Select
            {...wired}
            value={dressing.skin}
            onChange={(skin) => set({ skin })}
            labels={skinLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
      {isSaid ? (
        <ReportTime
          opened={opened}
          value={dressing.at}
          set={(at) => set({ at })}
          fault={faults[`${path}.at`]}
        />
      ) : null}
    </div>
  )
}

function SiteRow({ site, set }: { site: SiteDraft; set: (part: Partial<SiteDraft>) => void }) {
  return (
    <div className={css.row}>
      <Field label="Position">
        {(wired) => (
          <Select
            {...wired}
            value={site.position}
            onChange={(position) => set({ position })}
            labels={positionLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
      <Field label="Leaks">
        {(wired) => (
          <Select
            {...wired}
            value={site.leak}
            onChange={(leak) => set({ leak })}
            labels={askedLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
      <Field label="Drains">
        {(wired) => (
          <Select
            {...wired}
            value={site.draining}
            onChange={(draining) => set({ draining })}
            labels={askedLabels}
            empty={NOT_ASKED}
          />
        )}
      </Field>
    </div>
  )
}
