export const PROJECT = 'Outflow Round'

/** Stands on every clinical screen and print. */
export const cautions =
  'Decision support, not a diagnosis. Local protocol and licensed judgement come first. In an emergency call the local emergency number.'
