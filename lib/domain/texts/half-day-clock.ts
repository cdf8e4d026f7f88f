/** A time of day on a clock of twelve hours. @example halfDayClock('13:05', 'AM', 'PM') // '1:05 PM' */
export function halfDayClock(clock: string, am: string, pm: string): string {
  const [hour = 0, minute = 0] = clock.split(':').map(Number)
  return `${hour % 12 === 0 ? 12 : hour % 12}:${String(minute).padStart(2, '0')} ${hour < 12 ? am : pm}`
}
