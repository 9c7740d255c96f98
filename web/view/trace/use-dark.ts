import { useEffect, useState } from 'preact/hooks'
import type { DeviceSettings } from '../../state/device-settings.ts'

/** True while the page is dark, by the person's choice or the device's. */
export function useDark(theme: DeviceSettings['theme']): boolean {
  const [device, setDevice] = useState(() => matchMedia('(prefers-color-scheme: dark)').matches)
  useEffect(() => {
    const query = matchMedia('(prefers-color-scheme: dark)')
    const change = () => setDevice(query.matches)
    query.addEventListener('change', change)
    return () => query.removeEventListener('change', change)
  }, [])
  return theme === 'as-device' ? device : theme === 'dark'
}
