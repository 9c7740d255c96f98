import { expect, test } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../web/state/device-settings.ts'
import { defaultPage } from '../page-of.ts'

test('the page is dark as the device is, at once when the device changes', () => {
  const page = defaultPage(0)
  expect(page.isDark.value).toBe(false)
  page.deviceIsDark.value = true
  expect(page.isDark.value).toBe(true)
})

test("the person's choice of light or dark stands against the device's", () => {
  const page = defaultPage(0)
  page.settings.value = { ...DEFAULT_SETTINGS, theme: 'dark' }
  expect(page.isDark.value).toBe(true)
  page.deviceIsDark.value = true
  page.settings.value = { ...DEFAULT_SETTINGS, theme: 'light' }
  expect(page.isDark.value).toBe(false)
})
