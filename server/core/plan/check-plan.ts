import { checkAlarms } from './check-alarms.ts'
import { checkStage } from './check-stage.ts'
import type { Plan } from './plan.ts'

/**
 * What makes a plan impossible, one sentence a fault; none for a plan that can be run. Whatever is merely
 * unusual passes: a dyer may have reasons, and `warnPlan` says so while the plan is written.
 */
export function checkPlan(plan: Plan): readonly string[] {
  return [
    ...(plan.stages.length === 0 ? ['stages is empty; a plan needs at least one stage'] : []),
    ...repeatedIds(plan),
    ...plan.stages.flatMap(checkStage),
    ...checkAlarms(plan.alarms),
  ]
}

function repeatedIds(plan: Plan): readonly string[] {
  const ids = plan.stages.map((stage) => stage.id)
  const repeated = new Set(ids.filter((id, i) => ids.indexOf(id) !== i))
  return [...repeated].map((id) => {
    const places = ids.flatMap((other, i) => (other === id ? [i + 1] : []))
    return `the id "${id}" repeats, as stages ${places.join(' and ')}; each stage needs an id of its own`
  })
}
