export { goBack } from './go-back.ts'
export { readBeginning, readDraft, readRules } from './read-rules.ts'
export { stepDraft } from './step-draft.ts'
export { writeDraft } from './write-draft.ts'
