import type { DeviceSettings } from '../../state/device-settings.ts'

/** The address of something to print, in the units, zone and language of this person. */
export function reportHref(
  batchId: number,
  report: 'sheet' | 'tag' | 'lot-record' | 'class-page',
  settings: Pick<DeviceSettings, 'unit' | 'weights'>,
  more: Readonly<Record<string, string>> = {},
): string {
  const query = new URLSearchParams({
    unit: settings.unit,
    weights: settings.weights,
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    ...more,
  })
  return `/api/batches/${batchId}/${report}?${query}`
}
