/** A text with a capital first letter. @example capital('left kidney') // 'Left kidney' */
export const capital = (text: string): string => `${text[0]?.toLocaleUpperCase('en') ?? ''}${text.slice(1)}`
