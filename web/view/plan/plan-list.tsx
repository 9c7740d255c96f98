import type { PlanRecord } from '#core/wire/records'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'

export function PlanList() {
  const { w, f } = useWords()
  const found = useAnswer<readonly PlanRecord[]>('/api/plans')
  return (
    <div class="wide">
      <div class="page-head">
        <h1>{w.plan.listTitle}</h1>
        <a class="button main" href="#/plans/new">
          {w.plan.write}
        </a>
      </div>
      <Show of={found}>
        {(plans) =>
          plans.length === 0 ? (
            <div class="panel">
              <h2>{w.plan.none}</h2>
              <p>{w.plan.noneHelp}</p>
            </div>
          ) : (
            <ul class="row-list">
              {plans.map(({ id, version, savedMs, plan }) => (
                <li key={id}>
                  <div class="row-main">
                    <a href={`#/plans/${id}`}>{plan.title}</a>
                    <p class="row-more">
                      {[
                        plan.fibre,
                        w.plan.stagesOf(plan.stages.length),
                        w.plan.version(version),
                        f.date(savedMs),
                      ]
                        .filter((part) => part !== undefined)
                        .join(' · ')}
                    </p>
                  </div>
                  <a class="button" href={`#/start/${id}`} aria-label={`${w.plan.startWith}: ${plan.title}`}>
                    {w.plan.startWith}
                  </a>
                </li>
              ))}
            </ul>
          )
        }
      </Show>
    </div>
  )
}
