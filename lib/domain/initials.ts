/** Initials that fit a narrow column. @example initialsOf('R. Okafor (invented)') // 'RO' */
export const initialsOf = (name: string): string =>
  name
    .replace(/\(.*?\)/g, ' ')
    .split(/[\s.,-]+/)
    .flatMap((word) => [...word].slice(0, 1))
    .slice(0, 3)
    .join('')
    .toLocaleUpperCase('en')
