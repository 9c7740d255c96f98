import { aboveCeiling } from './above-ceiling.ts'
import { aboveWindow } from './above-window.ts'
import type { AlarmRule } from './alarm-rule.ts'
import { belowWindow } from './below-window.ts'
import { headingAboveCeiling } from './heading-above-ceiling.ts'
import { headingAboveWindow } from './heading-above-window.ts'
import { boilDry, nearBoil } from './near-boil.ts'
import { noHeat } from './no-heat.ts'
import { notCooling } from './not-cooling.ts'
import { probeFault } from './probe-fault.ts'
import { probeOut } from './probe-out.ts'
import { probeSilent } from './probe-silent.ts'
import { probeStuck } from './probe-stuck.ts'
import { coolingTooFast, heatingTooFast } from './too-fast.ts'
import { unplannedHeating } from './unplanned-heating.ts'

/** Every alarm of a single pot, the most pressing first. */
export const ALL_RULES: readonly AlarmRule[] = [
  aboveCeiling,
  boilDry,
  notCooling,
  unplannedHeating,
  headingAboveCeiling,
  nearBoil,
  probeOut,
  probeSilent,
  probeFault,
  probeStuck,
  noHeat,
  aboveWindow,
  belowWindow,
  headingAboveWindow,
  heatingTooFast,
  coolingTooFast,
]
