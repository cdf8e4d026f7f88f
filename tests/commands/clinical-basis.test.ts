import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { clinicalBasis } from '../../lib/commands/clinical-basis/text.ts'

test('docs/clinical-basis.md is what the rules say; after a change run npm run clinical-basis', () => {
  expect(readFileSync(new URL('../../docs/clinical-basis.md', import.meta.url), 'utf8')).toBe(clinicalBasis())
})
