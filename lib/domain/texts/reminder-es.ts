import type { ReminderTexts } from './reminder.ts'

/** Needs to be read by a qualified person before real use. */
export const es: ReminderTexts = {
  subject: 'Un mensaje de su clínica',
  ask: 'Su clínica le pide que abra su página de control.',
  where: 'Ábrala en el teléfono que usa siempre para esto:',
  questions: (phone) =>
    `No conteste a este mensaje. Nadie lee las respuestas. Para hablar con su clínica, llame al ${phone}.`,
  emergency: 'En una emergencia, llame al número de emergencias de su zona.',
  toStop: 'Para no recibir más estos mensajes:',
  stopTitle: 'Parar los mensajes',
  stopAsk: '¿Quiere parar los mensajes que le piden abrir su página de control?',
  stopButton: 'Parar los mensajes',
  stopped: 'Ya no le enviamos más estos mensajes. Puede seguir usando su página de control.',
  again: (phone) => `¿Los quiere otra vez? Llame a su clínica: ${phone}.`,
  notValid: 'Este enlace no funciona. Llame a su clínica para parar los mensajes.',
}
