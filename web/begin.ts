/**
 * The first that runs, and small: asks the server for what the page at this address shows, and fetches the program
 * meanwhile. A new window waits for the longer of the two and not for both.
 */
import { askEarly } from './device/early-answers.ts'
import { drawsCharts, firstAsks } from './state/first-asks.ts'
import { routeAt } from './state/route.ts'
import './style/tokens.css'
import './style/base.css'
import './style/shell.css'
import './style/stove.css'
import './style/pages.css'
import './style/record.css'
import './style/heat.css'
import { loadChart } from './view/chart/load-chart.ts'

const route = routeAt(location)
for (const path of firstAsks(route)) askEarly(path)
void import('./main.tsx')
if (drawsCharts(route)) void loadChart()
