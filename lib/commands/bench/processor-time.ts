/**
 * Milliseconds of processor time that this process has used, all its threads together: what the work costs, whatever
 * else the machine is doing meanwhile. Garbage collection counts.
 */
export function processorMs(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}
