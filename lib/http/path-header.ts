/** The path of the page that is asked for, as the proxy passes it on to the page. */
export const PATH_HEADER = 'x-path'
