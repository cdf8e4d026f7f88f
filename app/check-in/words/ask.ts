/** What the page says when an answer is missing, cannot be, or is unusual. Plain words, no blame. */
export const ask = {
  heading: 'Please look at this',
  chooseOne: 'Please choose one answer.',
  volumeNumber: 'Please write a number, like 250. If you could not measure, choose that above.',
  volumeTooLarge: 'That is more than this form can take. Please check the number.',
  volumeLarge: (ml: number) => `${ml} mL is a lot. Is that right?`,
  bagHolds: (bagMl: number, ml: number) =>
    `Your bag holds ${bagMl} mL, and you wrote ${ml} mL. Please say if you emptied more than one time.`,
  overBag: (bagMl: number, ml: number) =>
    `${ml} mL is more than two bags of ${bagMl} mL. Is that right for one time?`,
  ounces: (lastMl: number, ml: number) =>
    `Last time you wrote ${lastMl} mL. Now it is ${ml} mL. Please check that you chose mL, ounces or cups. Is ${ml} mL right?`,
  flushNumber: 'Please write how many mL you put in, like 10.',
  flushLarge: (ml: number, orderedMl: number) =>
    `Your flush is ${orderedMl} mL. You wrote ${ml} mL. Is that right?`,
  temperatureMissing: 'Please write what the thermometer shows, or choose that you have no thermometer.',
  temperatureNumber: 'Please write what the thermometer shows, like 37.2 (or 99.0 in °F).',
  temperatureRare: (both: string) => `${both} is rare. Please measure again if you can. Is that right?`,
  timeMissing: 'Please choose the day and the time.',
  timeAhead: 'This time has not come yet. Please check the day and the time.',
  noteTooLong: 'Please make the note shorter.',
  yesRight: 'Yes, that is right',
  fromClinic: (message: string) => `This answer was not taken: ${message}`,
}
