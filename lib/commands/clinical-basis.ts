import { writeFileSync } from 'node:fs'
import { clinicalBasis } from './clinical-basis/text.ts'

writeFileSync(new URL('../../docs/clinical-basis.md', import.meta.url), clinicalBasis())
