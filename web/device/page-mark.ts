/** What the browser's tab shows when the page is one of many. */
export type PageMark = 'calm' | 'soon' | 'at-once'

/** Sets title and icon of the tab. The icons are files: the page allows no inline images. */
export function markPage(mark: PageMark, title: string): void {
  // Set again it is a change to the browser, with all the work of one.
  if (document.title !== title) document.title = title
  const href = `/icon-${mark}.svg`
  const link = document.querySelector<HTMLLinkElement>('link[rel="icon"]')
  if (link !== null && link.getAttribute('href') !== href) link.setAttribute('href', href)
}

/** Which of the two sets of colours the style sheet uses. */
export function showDark(isDark: boolean): void {
  document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light'
}
