import type { AdviceName } from '../advice-text.ts'

/** The standard texts in Spanish. Nobody qualified has read them yet: a person who may must, before real use. */
export const adviceEs: Readonly<Record<AdviceName, string>> = {
  'emergency-symptoms':
    'Llame ahora al número de emergencias de su zona. No conduzca usted. Si puede, pida a alguien que se quede con usted. Diga que tiene un tubo.',
  'bleeding-and-faint':
    'Hay sangre en el tubo y se siente mareado o débil. Llame ahora al número de emergencias de su zona. Acuéstese. No conduzca usted.',
  'drain-out':
    'No vuelva a meter el tubo. Tape el lugar con una gasa limpia. Vaya ahora a la sala de urgencias más cercana. Luego avise a su clínica.',
  'blocked-and-infected':
    'Tiene fiebre o escalofríos, y puede que el tubo no drene bien. Vaya ahora a la sala de urgencias más cercana. Avise a su clínica en el camino.',
  'bulb-out':
    'No vuelva a meter el tubo. Tape el lugar con una gasa limpia. Llame ahora a su clínica. Si nadie contesta, vaya a la sala de urgencias más cercana.',
  fever:
    'Tiene fiebre o escalofríos. Llame ahora a su clínica. No espere a mañana. Si nadie contesta, vaya a la sala de urgencias más cercana.',
  'cap-failing':
    'Su tubo está cerrado con un tapón y usted no se siente bien. Llame ahora a su clínica. Pregunte si debe abrir el tubo.',
  'not-draining':
    'Mire todo el tubo. ¿Está doblado o aplastado? ¿Hay una llave o una pinza cerrada? Deje la bolsa más abajo que el lugar por donde entra el tubo. Si aún no drena, llame ahora a su clínica.',
  'drain-moved':
    'No meta más el tubo y no tire de él. Péguelo a la piel con cinta para que no se mueva más. Llame ahora a su clínica.',
  bleeding:
    'Ve líquido rojo o coágulos. Llame ahora a su clínica. Si la sangre no para, o se siente débil, llame al número de emergencias de su zona.',
  'severe-pain':
    'Su dolor es fuerte. Llame ahora a su clínica. Si nadie contesta, vaya a la sala de urgencias más cercana.',
  leak: 'Mire que el tubo no esté doblado y que no haya una llave cerrada. Ponga una gasa limpia y seca. Llame ahora a su clínica.',
  'large-volume-now': 'Es mucho líquido de una sola vez. Llame ahora a su clínica, antes de sacar más.',
  'high-output':
    'Salió mucho más líquido de lo que esperamos. Llame ahora a su clínica. No cierre el tubo si no se lo piden.',
  'large-volume': 'Es mucho líquido de una sola vez. Llame hoy a su clínica, antes de sacar más.',
  'high-output-today':
    'Salió más líquido, o no se ve como antes. Llame hoy a su clínica. No cierre el tubo si no se lo piden.',
  'flush-blocked':
    'No empuje el lavado con fuerza. Mire que no haya una llave o una pinza cerrada. Si aún no entra, llame hoy a su clínica.',
  'pink-fluid':
    'Llame hoy a su clínica por el líquido rosado. Si se pone rojo, o ve coágulos, llame de inmediato.',
  'cloudy-fluid':
    'Llame hoy a su clínica y diga cómo se ve el líquido. Mida si tiene fiebre. Si le da fiebre o escalofríos, llame de inmediato.',
  skin: 'Llame hoy a su clínica por la piel junto al tubo. Si le da fiebre o escalofríos, llame de inmediato.',
  unwell: 'Llame hoy a su clínica y diga cómo se siente. Si se pone peor, llame de inmediato.',
  dressing: 'Ponga ahora una gasa limpia y seca, si le mostraron cómo. Si no puede, llame hoy a su clínica.',
  'keep-watching':
    'No vimos aquí una respuesta que pida llamar ahora mismo. Eso no quiere decir que todo esté bien. Si se siente peor, o el tubo cambia, llame a su clínica.',
  'clinic-first':
    'Lo que le dijo su propia clínica va primero. Si le dijeron que hiciera otra cosa, haga eso.',
}
