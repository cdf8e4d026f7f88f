import { halfDayClock } from './half-day-clock.ts'
import type { HandOutText } from './hand-out.ts'

const months = 'يناير فبراير مارس أبريل مايو يونيو يوليو أغسطس سبتمبر أكتوبر نوفمبر ديسمبر'.split(' ')
const weekdays = 'الأحد الاثنين الثلاثاء الأربعاء الخميس الجمعة السبت'.split(' ')

function every(hours: number): string {
  if (hours === 168) return 'مرة في الأسبوع'
  if (hours === 24) return 'مرة في اليوم'
  if (hours === 48) return 'كل يومين'
  if (hours > 24 && hours % 24 === 0) return `كل ${hours / 24} أيام`
  if (hours === 12) return 'مرتين في اليوم'
  if (hours < 12 && 24 % hours === 0) return hours === 1 ? 'كل ساعة' : `${24 / hours} مرات في اليوم`
  return `كل ${hours} ساعة`
}

/** What is written in other letters keeps its own direction (Unicode's first strong isolate). */
const apart = (words: string) => `\u2068${words}\u2069`

/** Arabic, as the proof of a third language and of right-to-left. A qualified translator has to read it before real use. */
export const handOutAr: HandOutText = {
  unread: 'هذه الترجمة تنتظر مراجعة مترجم مؤهل.',
  title: 'العناية بالأنبوب في البيت',
  joined: (parts) => parts.join('؛ '),
  born: (date) => `تاريخ الميلاد ${date}`,
  made: (date) => `طُبعت في ${date}`,
  cautions:
    'هذه الورقة تساعدك وتساعد عيادتك. هي ليست تشخيصاً. ما تقوله لك عيادتك هو الأهم. في حالة الطوارئ اتصل برقم الطوارئ المحلي.',
  demo: 'شخص وعيادة من الخيال، للعرض فقط.',

  call: 'اتصل بعيادتك:',
  afterHours: 'إذا كانت العيادة مغلقة:',
  reads: 'نقرأ تقاريرك:',
  hoursUnknown: 'اسأل عيادتك متى تُقرأ تقاريرك.',
  closedOn: 'مغلقة في',
  weekdays: {
    mon: 'الاثنين',
    tue: 'الثلاثاء',
    wed: 'الأربعاء',
    thu: 'الخميس',
    fri: 'الجمعة',
    sat: 'السبت',
    sun: 'الأحد',
  },

  picture: 'جسمك من الأمام. كل رقم هو أنبوب.',
  yourRight: 'يمينك',
  yourLeft: 'يسارك',
  places: {
    nephrostomy: 'أنبوب الكلية',
    nephroureteral: 'أنبوب الكلية والمثانة',
    biliary: 'أنبوب العصارة الصفراوية',
    cholecystostomy: 'أنبوب المرارة',
    collection: 'أنبوب لتجمع سائل',
    pleural: 'أنبوب الصدر',
    bulb: 'أنبوب الجرح مع كرة',
  },
  sides: { left: 'الجهة اليسرى', right: 'الجهة اليمنى', middle: 'في الوسط' },
  cmAtSkin: (cm) => `العلامة عند الجلد: ${cm} سم.`,
  capped: 'عليه غطاء. لا تنزع الغطاء.',
  every,
  measure: (often) => `قِس وأرسل ${often}.`,
  flush: (ml, when) => `اغسله بـ ${ml} مل ${when}.`,
  flushAt: (times) => `الساعة ${times.join(' و ')}`,
  noFlush: 'لا تغسله.',
  dressing: (often, type) => `غيّر الضماد ${often}${type ? ` (${apart(type)})` : ''}.`,
  newTube: (days) => `أنبوب جديد كل ${days} يوماً.`,
  newTubeBooked: (when) => `موعد الأنبوب الجديد: ${when}.`,
  newTubeAsked: 'ستعطيك عيادتك موعداً لأنبوب جديد.',
  takeOut: (plan) => `خطة نزعه: ${apart(plan)}`,
  takeOutBooked: (when) => `موعد نزعه: ${when}.`,
  takeOutAsked: 'ستعطيك عيادتك موعداً لنزعه.',

  eachTime: 'في كل مرة',
  steps: {
    read: 'قبل التفريغ اقرأ علامة المل عند سطح السائل.',
    look: 'انظر إلى السائل والجلد والضماد.',
    write: 'اكتب كم مل وفي أي ساعة. الصفر مهم أيضاً.',
    body: 'قِس حرارتك إن أمكن.',
    send: 'أرسل تقريرك: وجّه هاتفك إلى المربع.',
    sendPaper: 'أرسل تقريرك أو اكتبه على الورقة.',
  },
  scan: 'رابطك الخاص. لا تعطه لأحد.',
  noLink: 'استعمل الرابط الذي أعطتك إياه عيادتك.',

  emergency: 'اذهب إلى الطوارئ أو اتصل برقم الطوارئ المحلي إذا',
  emergencyIf: {
    breath: 'ضاق نفسك أو آلمك صدرك أو أُغمي عليك أو شعرت بالارتباك',
    bleeding: 'نزفت كثيراً',
    out: 'خرج الأنبوب: لا تُدخله من جديد',
    infected: 'عندك حمى أو رجفة والأنبوب لا يصرّف جيداً',
    noAnswer: 'احتجت إلى الاتصال الآن ولم يرد أحد',
  },
  callNow: 'اتصل بعيادتك الآن إذا',
  callNowIf: {
    fever: (celsius, fahrenheit) => `عندك رجفة أو حمى: ${apart(`${celsius} °C (${fahrenheit} °F)`)} أو أكثر`,
    out: 'خرج الأنبوب: لا تُدخله من جديد',
    stops: 'توقف الأنبوب أو قل السائل كثيراً: انظر أولاً هل هو مثني أو مغلق',
    dwindles: 'توقف الأنبوب فجأة: انظر أولاً هل هو مثني أو مغلق',
    moved: 'تحرك الأنبوب أو تسرب السائل عند الجلد',
    blood: 'رأيت سائلاً أحمر أو جلطات',
    pain: 'عندك ألم شديد',
  },
  callToday: 'اتصل في نفس اليوم إذا',
  callTodayIf: {
    fluid: 'صار السائل وردياً أو عكراً',
    skin: 'احمرّ الجلد أو آلمك أو ظهر صديد',
    flush: 'لم يدخل الغسيل: لا تضغط بقوة',
    unwell: 'شعرت بدوخة أو تقيأت',
  },

  log: {
    title: 'ورقة للأيام التي بلا هاتف',
    about: 'سطر واحد في كل مرة. احفظها لعيادتك أو اقرأها للممرضة بالهاتف.',
    looks: 'شكل السائل: صافٍ، أصفر، وردي، أحمر، جلطات، عكر، صديد، أخضر، بني.',
    cut: 'اقطع هنا',
    date: 'التاريخ',
    time: 'الساعة',
    temperature: 'الحرارة',
    ml: 'مل',
    look: 'الشكل',
    flush: 'غسيل مل',
    dressing: 'ضماد جديد',
  },

  time: (clock) => halfDayClock(clock, 'ص', 'م'),
  date: ({ weekday, day, month }) => `${weekdays[weekday]} ${day} ${months[month - 1]}`,
  fullDate: ({ day, month, year }) => `${day} ${months[month - 1]} ${year}`,
  dateAndTime: (date, time) => `${date}، ${time}`,
}
