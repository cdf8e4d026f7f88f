import type { AdviceName } from '../advice-text.ts'

/**
 * The standard words that a patient reads: one fixed text per case, never composed on the fly, so that a clinic can
 * read, change and approve each. Plain English, reading grade 6 or below (tested), what to do and not what it is.
 *
 * Sources are those of the findings that they go with: go to an emergency department when a drain is out
 * (re-entry through the old tract succeeds within hours: Sarkar & Parr, BMJ Innov 4(3):113), check for
 * kinks before calling for no drainage (Children's Wisconsin 1154), fever at 38.0 °C (theii.org biliary
 * leaflet), a dressing is renewed when damp, loosened or soiled (CDC MMWR 2002 App. B). 'Do not force a
 * flush' and 'do not push it back' are common practice without a single source.
 */
export const adviceEn: Readonly<Record<AdviceName, string>> = {
  'emergency-symptoms':
    'Call your local emergency number now. Do not drive yourself. If you can, have someone stay with you. Tell them about the tube.',
  'bleeding-and-faint':
    'You have blood in the tube and feel dizzy or faint. Call your local emergency number now. Lie down. Do not drive yourself.',
  'drain-out':
    'Do not push the tube back in. Cover the place with a clean dressing. Go to the nearest emergency department now. Then tell your clinic.',
  'blocked-and-infected':
    'You have a fever or chills, and the tube may not drain as it should. Go to the nearest emergency department now. Tell your clinic on the way.',
  'bulb-out':
    'Do not push the tube back in. Cover the place with a clean dressing. Call your clinic now. If no one answers, go to the nearest emergency department.',
  fever:
    'You have a fever or chills. Call your clinic now. Do not wait for the next day. If no one answers, go to the nearest emergency department.',
  'cap-failing':
    'Your tube is capped and you do not feel right. Call your clinic now. Ask if you should open the tube.',
  'not-draining':
    'Look along the whole tube. Is it bent or pinched? Is a tap or clamp closed? Keep the bag lower than the place where the tube goes in. If it still does not drain, call your clinic now.',
  'drain-moved':
    'Do not push the tube in, and do not pull it. Tape it down so that it cannot move more. Call your clinic now.',
  bleeding:
    'You see red fluid or clots. Call your clinic now. If the blood does not stop, or you feel faint, call your local emergency number.',
  'severe-pain':
    'Your pain is bad. Call your clinic now. If no one answers, go to the nearest emergency department.',
  leak: 'Check that the tube is not bent and that no tap is closed. Put a clean, dry dressing on. Call your clinic now.',
  'large-volume-now': 'This is a lot of fluid at one time. Call your clinic now, before you drain more.',
  'high-output':
    'Much more fluid came out than we expect. Call your clinic now. Do not close the tube, unless they tell you to.',
  'large-volume': 'This is a lot of fluid at one time. Call your clinic today, before you drain more.',
  'high-output-today':
    'More fluid came out, or it does not look as before. Call your clinic today. Do not close the tube, unless they tell you to.',
  'flush-blocked':
    'Do not force the flush. Check that no tap or clamp is closed. If it still will not go in, call your clinic today.',
  'pink-fluid':
    'Call your clinic today about the pink fluid. If it turns red, or you see clots, call at once.',
  'cloudy-fluid':
    'Call your clinic today about how the fluid looks. Check for a fever. If you get a fever or chills, call at once.',
  skin: 'Call your clinic today about the skin by the tube. If you get a fever or chills, call at once.',
  unwell: 'Call your clinic today and say how you feel. If it gets worse, call at once.',
  dressing: 'Put a clean, dry dressing on now, if you were shown how. If you cannot, call your clinic today.',
  'keep-watching':
    'We saw no answer here that needs a call right now. That does not mean all is well. If you feel worse, or the tube changes, call your clinic.',
  'clinic-first':
    "Your own clinic's instructions come first. If they told you to do something else, do that.",
}
