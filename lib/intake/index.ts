export { addDrainTo } from './add-drain.ts'
export { approveAdviceText, readAdviceTexts, saveAdviceText } from './advice-texts.ts'
export { readAlike } from './alike.ts'
export { readCallTexts, saveCallText } from './call-texts.ts'
export { changeOrders } from './change-orders.ts'
export { checkInView } from './check-in-view.ts'
export { type ClinicFront, clinicFront, clinicOfSession } from './clinic-front.ts'
export { readClinicSettings, saveClinicSettings } from './clinic-settings.ts'
export { correctDrain } from './correct-drain.ts'
export { takeDischargeFile } from './discharge-file.ts'
export {
  addToDischarges,
  countWaiting,
  readDischarges,
  setAsideDischarge,
  waitingDischarge,
} from './discharges.ts'
export { editPatient } from './edit-patient.ts'
export { type Enrolled, enrol } from './enrol.ts'
export { endFollowUp, endsWithDrain, resumeFollowUp } from './follow-up.ts'
export { issueLink, issueLinkOnce, listLinks, replaceLink, revokeLink, revokeLinks } from './links.ts'
export { moveReport, moveTarget } from './move-report.ts'
export { checkInSession, exchangeLink, forgetSession } from './open-link.ts'
export { offeredOrders, readOrderTemplates, saveOrderTemplate } from './order-templates.ts'
export { enterPaperLog } from './paper-log.ts'
export { type Incoming, receiveReport } from './receive-report.ts'
export { issueRenewalCode, renewByCode } from './renewal.ts'
export { type StopView, stopReminders, stopView } from './stop-reminders.ts'
export { admitSystem, patientForSystem, systemByKey } from './systems.ts'
export { undoOrders } from './undo-orders.ts'
export { bookVisitWithin, stepVisit } from './visits.ts'
