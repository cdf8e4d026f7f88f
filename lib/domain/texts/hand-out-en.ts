import { halfDayClock } from './half-day-clock.ts'
import type { HandOutText } from './hand-out.ts'

const months = 'January February March April May June July August September October November December'.split(
  ' ',
)
const weekdays = 'Sunday Monday Tuesday Wednesday Thursday Friday Saturday'.split(' ')

function every(hours: number): string {
  if (hours === 168) return 'once a week'
  if (hours === 24) return 'once a day'
  if (hours > 24 && hours % 24 === 0) return `every ${hours / 24} days`
  if (hours === 12) return 'twice a day'
  if (hours < 12 && 24 % hours === 0) return hours === 1 ? 'every hour' : `${24 / hours} times a day`
  return `every ${hours} hours`
}

/** English: the original, by which translations are made. */
export const handOutEn: HandOutText = {
  unread: null,
  title: 'Drain care at home',
  joined: (parts) => parts.join('; '),
  born: (date) => `born ${date}`,
  made: (date) => `Printed ${date}`,
  cautions:
    'This page helps you and your clinic. It is not a diagnosis. What your own clinic tells you comes first. In an emergency, call your local emergency number.',
  demo: 'Made-up person and clinic, for a demo.',

  call: 'Call your clinic:',
  afterHours: 'When the clinic is closed:',
  reads: 'Someone reads your reports:',
  hoursUnknown: 'Ask your clinic when someone reads your reports.',
  closedOn: 'Closed on',
  weekdays: { mon: 'Mon', tue: 'Tue', wed: 'Wed', thu: 'Thu', fri: 'Fri', sat: 'Sat', sun: 'Sun' },

  picture: 'Your body from the front. Each number shows a drain.',
  yourRight: 'your right',
  yourLeft: 'your left',
  places: {
    nephrostomy: 'Kidney drain',
    nephroureteral: 'Kidney and bladder drain',
    biliary: 'Bile drain',
    cholecystostomy: 'Gallbladder drain',
    collection: 'Drain for a fluid pocket',
    pleural: 'Chest drain',
    bulb: 'Wound drain with a bulb',
  },
  sides: { left: 'left side', right: 'right side', middle: 'middle' },
  cmAtSkin: (cm) => `Mark at the skin: ${cm} cm.`,
  capped: 'It has a cap. Leave the cap on.',
  every,
  measure: (often) => `Measure and report ${often}.`,
  flush: (ml, when) => `Flush ${ml} mL ${when}.`,
  flushAt: (times) => `at ${listed(times)}`,
  noFlush: 'No flush.',
  dressing: (often, type) => `New dressing ${often}${type ? ` (${type})` : ''}.`,
  newTube: (days) => `New tube every ${days} days.`,
  newTubeBooked: (when) => `Visit for a new tube: ${when}.`,
  newTubeAsked: 'Your clinic will call you with a date for a new tube.',
  takeOut: (plan) => `Plan to take it out: ${plan}`,
  takeOutBooked: (when) => `Visit to take it out: ${when}.`,
  takeOutAsked: 'Your clinic will call you with a date to take it out.',

  eachTime: 'Each time',
  steps: {
    read: 'Before you empty it, read the mL mark at the top of the fluid.',
    look: 'Look at the fluid, the skin and the dressing.',
    write: 'Note the mL and the time. Zero counts too.',
    body: 'Take your temperature if you can.',
    send: 'Send your check-in: point your phone at the square code.',
    sendPaper: 'Send your check-in, or write it on the paper log.',
  },
  scan: 'Your own check-in. Do not share it.',
  noLink: 'Use the check-in link that your clinic gave you.',

  emergency: 'Go to the emergency department, or call your local emergency number, if',
  emergencyIf: {
    breath: 'you are short of breath, have chest pain, faint or feel confused',
    bleeding: 'you bleed a lot',
    out: 'a tube comes out: do not push it back in',
    infected: 'you have a fever or chills and the tube does not drain well',
    noAnswer: 'you need to call now and no one answers',
  },
  callNow: 'Call your clinic now if',
  callNowIf: {
    fever: (celsius, fahrenheit) => `you have chills or a fever: ${celsius} °C (${fahrenheit} °F) or more`,
    out: 'the tube comes out: do not push it back in',
    stops: 'a tube stops, or much less comes: look for a bend or a closed tap first',
    dwindles: 'a tube stops all at once: look for a bend or a closed tap first',
    moved: 'a tube has moved, or leaks at the skin',
    blood: 'you see red fluid or clots',
    pain: 'you have bad pain',
  },
  callToday: 'Call the same day if',
  callTodayIf: {
    fluid: 'the fluid turns pink or cloudy',
    skin: 'the skin is red, sore or has pus',
    flush: 'a flush will not go in: do not force it',
    unwell: 'you are dizzy or throw up',
  },

  log: {
    title: 'Paper log, for days without a phone',
    about: 'One line each time. Keep it for your clinic, or read it to the nurse on the phone.',
    looks: 'How it looks: clear, yellow, pink, red, clots, cloudy, pus, green, brown.',
    cut: 'Cut or tear here',
    date: 'Date',
    time: 'Time',
    temperature: 'Temp.',
    ml: 'mL',
    look: 'Looks',
    flush: 'Flush mL',
    dressing: 'New dress\u00ading',
  },

  time: (clock) => halfDayClock(clock, 'AM', 'PM'),
  date: ({ weekday, day, month }) => `${weekdays[weekday]}, ${months[month - 1]} ${day}`,
  fullDate: ({ day, month, year }) => `${months[month - 1]} ${day}, ${year}`,
  dateAndTime: (date, time) => `${date}, ${time}`,
}

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
