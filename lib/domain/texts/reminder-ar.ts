import type { ReminderTexts } from './reminder.ts'

/** Needs to be read by a qualified person before real use. */
export const ar: ReminderTexts = {
  subject: 'رسالة من عيادتك',
  ask: 'تطلب منك عيادتك أن تفتح صفحة المتابعة.',
  where: 'افتحها على الهاتف الذي تستخدمه دائمًا لذلك:',
  questions: (phone) =>
    `لا ترد على هذه الرسالة. لا أحد يقرأ الردود. للتحدث مع عيادتك اتصل على \u2066${phone}\u2069.`,
  emergency: 'في حالة الطوارئ اتصل برقم الطوارئ في منطقتك.',
  toStop: 'لإيقاف هذه الرسائل:',
  stopTitle: 'إيقاف الرسائل',
  stopAsk: 'هل تريد إيقاف الرسائل التي تطلب منك فتح صفحة المتابعة؟',
  stopButton: 'أوقف الرسائل',
  stopped: 'لن نرسل لك المزيد من هذه الرسائل. يمكنك الاستمرار في استخدام صفحة المتابعة.',
  again: (phone) => `هل تريدها مرة أخرى؟ اتصل بعيادتك: \u2066${phone}\u2069.`,
  notValid: 'هذا الرابط لا يعمل. اتصل بعيادتك لإيقاف الرسائل.',
}
