import type { VolumeUnit } from '../answers/draft.ts'

/** The page's own words, apart from its code, so that another language is another file. Reading grade 6. */
export const say = {
  title: 'Check-in',
  emergency: 'In an emergency, call your local emergency number.',
  emergencyShort: 'Emergency: your local emergency number',
  clinicNumber: "Your clinic's number is on the paper you got when you went home.",
  ownClinicFirst:
    "This page helps your clinic decide. It is not a diagnosis. Your own clinic's instructions come first.",
  noScript:
    'This page cannot send a report on this phone. Please call your clinic and tell them your numbers.',
  demo: 'Demo with made-up people',
  opening: 'Opening your check-in…',

  closedTitle: 'This link does not open a check-in',
  closedText: [
    'Open the link again from the message that your clinic sent.',
    'If that does not help, call your clinic and ask for a new link. Call now if you feel unwell or the tube has changed.',
  ],

  unreachableTitle: 'No connection to the clinic',
  unreachableText: 'We will try again by ourselves. You can leave this page open.',
  unreachableCall: 'If you feel unwell or the tube has changed, do not wait. Call your clinic.',
  waitingHere: (count: number) =>
    count === 1
      ? 'One report is on this phone and not sent yet.'
      : `${count} reports are on this phone and not sent yet.`,
  tryNow: 'Try again now',

  hello: (name: string) => `Hello ${name}`,
  step: (n: number, of: number) => `Step ${n} of ${of}`,
  lastReport: (when: string) => ` · last report ${when}`,
  lastTime: (ml: number, when: string) => `Last time: ${ml} mL, ${when}.`,
  yourFlush: (ml: number) => `Your flush is ${ml} mL.`,
  shownBack: (typed: string, unit: VolumeUnit, ml: number) =>
    unit === 'mL' ? `${ml} mL` : `${typed.trim()} ${unit} = ${ml} mL`,
  back: 'Back',
  goOn: 'Continue',
  change: 'Change',

  whomToCall: 'Whom to call',
  callClinic: 'Call clinic',
  callNights: 'Nights',

  resumeTitle: 'You have a report that is not sent',
  resumeText: (when: string) => `You began it ${when}. The times in it stay as you gave them.`,
  resume: 'Go on with it',
  startAgain: 'Start a new one',

  nowTitle: 'Do this now',
  nowSend: 'Tell the clinic what I filled in',
  nowGoOn: 'Go on with the form',
  nowStrip: 'You told us something serious.',
  callStrip: 'Something needs a call.',
  nowRead: 'Read what to do',

  sendingTitle: 'Sending…',
  sendingText: 'Your report is on its way.',
  waitingTitle: 'Not sent yet',
  waitingKept:
    'Your report is safe on this phone. It goes by itself when there is a connection. You can close this page and open your link later.',
  waitingOnlyHere:
    'Your report goes by itself when there is a connection. Do not close this page: this phone cannot keep the report.',
  endedTitle: 'Please open your link again',
  endedKept:
    'This page was open too long, so the report is not sent yet. Your answers are safe on this phone. Open the link from your clinic again, and the report goes by itself.',
  endedOnlyHere:
    'This page was open too long, so the report is not sent yet. Open the link from your clinic again in this same tab. Do not close this page: this phone cannot keep the report.',

  receiptTitle: 'The clinic has your report',
  receiptNumber: 'Receipt number',
  receivedAt: 'Received',
  receiptRead: 'A person will look at the list of reports. This page does not tell you when it was read.',
  another: 'Start another report',

  elsewhereTitle: 'This report was already sent',
  elsewhereText: (when: string, receipt: string) =>
    `It reached the clinic ${when}. Receipt number ${receipt}.`,

  ofTen: (pain: number) => `${pain} of 10`,
  checkTitle: 'Is this right?',
  notAnswered: 'Not answered',
  note: 'Anything else the clinic should know?',
  noteHint: 'You can leave this empty.',
  send: 'Send to the clinic',
} as const
