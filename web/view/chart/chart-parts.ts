import {
  CategoryScale,
  Chart,
  Filler,
  LineController,
  LineElement,
  LinearScale,
  PointElement,
  Tooltip,
} from 'chart.js'
import Annotation from 'chartjs-plugin-annotation'
import Zoom from 'chartjs-plugin-zoom'

/** The chart with the parts that the page's line charts need, and nothing more. */
Chart.register(
  LineController,
  LineElement,
  PointElement,
  LinearScale,
  CategoryScale,
  Filler,
  Tooltip,
  Annotation,
  Zoom,
)
Chart.defaults.font.family = 'system-ui, sans-serif'

export { Chart }
