import type { ReminderTexts } from './reminder.ts'

export const en: ReminderTexts = {
  subject: 'A message from your clinic',
  ask: 'Your clinic asks you to open your check-in page.',
  where: 'Open it on the phone that you always use for it:',
  questions: (phone) =>
    `Do not answer this message. Nobody reads the answers. To reach your clinic, call ${phone}.`,
  emergency: 'In an emergency, call your local emergency number.',
  toStop: 'To stop these messages:',
  stopTitle: 'Stop messages',
  stopAsk: 'Do you want to stop the messages that ask you to open your check-in page?',
  stopButton: 'Stop the messages',
  stopped: 'We send you no more of these messages. You can still use your check-in page.',
  again: (phone) => `Do you want them again? Call your clinic: ${phone}.`,
  notValid: 'This link does not work. Call your clinic to stop the messages.',
}
