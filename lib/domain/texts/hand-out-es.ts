import { halfDayClock } from './half-day-clock.ts'
import type { HandOutText } from './hand-out.ts'

const months =
  'enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre'.split(' ')
const weekdays = 'domingo lunes martes miércoles jueves viernes sábado'.split(' ')

function every(hours: number): string {
  if (hours === 168) return 'una vez por semana'
  if (hours === 24) return 'una vez al día'
  if (hours > 24 && hours % 24 === 0) return `cada ${hours / 24} días`
  if (hours <= 12 && 24 % hours === 0) return hours === 1 ? 'cada hora' : `${24 / hours} veces al día`
  return `cada ${hours} horas`
}

/** Spanish, complete. A qualified translator has to read it before real use. */
export const handOutEs: HandOutText = {
  unread: 'Traducción pendiente de revisión por un traductor cualificado.',
  title: 'Cuidar su drenaje en casa',
  joined: (parts) => parts.join('; '),
  born: (date) => `nació el ${date}`,
  made: (date) => `Impreso el ${date}`,
  cautions:
    'Esta hoja les ayuda a usted y a su clínica. No es un diagnóstico. Lo que le diga su clínica va primero. En una emergencia, llame al número local de emergencias.',
  demo: 'Persona y clínica inventadas, para una demostración.',

  call: 'Llame a su clínica:',
  afterHours: 'Si la clínica está cerrada:',
  reads: 'Alguien lee sus informes:',
  hoursUnknown: 'Pregunte a su clínica cuándo se leen sus informes.',
  closedOn: 'Cerrado el',
  weekdays: { mon: 'lun', tue: 'mar', wed: 'mié', thu: 'jue', fri: 'vie', sat: 'sáb', sun: 'dom' },

  picture: 'Su cuerpo visto de frente. Cada número es un drenaje.',
  yourRight: 'su derecha',
  yourLeft: 'su izquierda',
  places: {
    nephrostomy: 'Drenaje del riñón',
    nephroureteral: 'Drenaje del riñón y la vejiga',
    biliary: 'Drenaje de la bilis',
    cholecystostomy: 'Drenaje de la vesícula',
    collection: 'Drenaje de una bolsa de líquido',
    pleural: 'Drenaje del pecho',
    bulb: 'Drenaje de la herida con pera',
  },
  sides: { left: 'lado izquierdo', right: 'lado derecho', middle: 'en el medio' },
  cmAtSkin: (cm) => `Marca en la piel: ${cm} cm.`,
  capped: 'Tiene un tapón. No quite el tapón.',
  every,
  measure: (often) => `Mida e informe ${often}.`,
  flush: (ml, when) => `Lave con ${ml} mL ${when}.`,
  flushAt: (times) => `a las ${listed(times)}`,
  noFlush: 'No se lava.',
  dressing: (often, type) => `Cambie la venda ${often}${type ? ` (${type})` : ''}.`,
  newTube: (days) => `Tubo nuevo cada ${days} días.`,
  newTubeBooked: (when) => `Cita para un tubo nuevo: ${when}.`,
  newTubeAsked: 'Su clínica le dará una fecha para un tubo nuevo.',
  takeOut: (plan) => `Plan para quitarlo: ${plan}`,
  takeOutBooked: (when) => `Cita para quitarlo: ${when}.`,
  takeOutAsked: 'Su clínica le dará una fecha para quitarlo.',

  eachTime: 'Cada vez',
  steps: {
    read: 'Antes de vaciar, lea la marca de mL en la que está el líquido.',
    look: 'Mire el líquido, la piel y la venda.',
    write: 'Anote los mL y la hora. El cero también vale.',
    body: 'Tómese la temperatura si puede.',
    send: 'Mande su informe: apunte el teléfono al código cuadrado.',
    sendPaper: 'Mande su informe o escríbalo en la hoja de papel.',
  },
  scan: 'Su enlace propio. No lo comparta.',
  noLink: 'Use el enlace que le dio su clínica.',

  emergency: 'Vaya a urgencias, o llame al número local de emergencias, si',
  emergencyIf: {
    breath: 'le falta el aire, le duele el pecho, se desmaya o se siente confuso',
    bleeding: 'sangra mucho',
    out: 'un tubo se sale: no lo meta otra vez',
    infected: 'tiene fiebre o temblores y el tubo no drena bien',
    noAnswer: 'tiene que llamar ya y nadie contesta',
  },
  callNow: 'Llame a su clínica ya si',
  callNowIf: {
    fever: (celsius, fahrenheit) => `tiene temblores o fiebre: ${celsius} °C (${fahrenheit} °F) o más`,
    out: 'el tubo se sale: no lo meta otra vez',
    stops: 'un tubo no drena o sale mucho menos: mire antes si está doblado o cerrado',
    dwindles: 'un tubo deja de drenar de golpe: mire antes si está doblado o cerrado',
    moved: 'un tubo se ha movido o gotea en la piel',
    blood: 've líquido rojo o coágulos',
    pain: 'tiene mucho dolor',
  },
  callToday: 'Llame el mismo día si',
  callTodayIf: {
    fluid: 'el líquido se pone rosa o turbio',
    skin: 'la piel está roja, le duele o tiene pus',
    flush: 'el lavado no entra: no lo fuerce',
    unwell: 'tiene mareo o vomita',
  },

  log: {
    title: 'Hoja de papel, para días sin teléfono',
    about: 'Una línea cada vez. Guárdela para su clínica o léala a la enfermera por teléfono.',
    looks: 'Cómo se ve: claro, amarillo, rosa, rojo, coágulos, turbio, pus, verde, marrón.',
    cut: 'Corte por aquí',
    date: 'Fecha',
    time: 'Hora',
    temperature: 'Temp.',
    ml: 'mL',
    look: 'Se ve',
    flush: 'Lavar mL',
    dressing: 'Venda nueva',
  },

  time: (clock) => halfDayClock(clock, 'a. m.', 'p. m.'),
  date: ({ weekday, day, month }) => `${weekdays[weekday]} ${day} de ${months[month - 1]}`,
  fullDate: ({ day, month, year }) => `${day} de ${months[month - 1]} de ${year}`,
  dateAndTime: (date, time) => `${date}, ${time}`,
}

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} y ${words.at(-1)}`
