import { LineChart } from 'echarts/charts'
import { GridComponent, MarkLineComponent, TooltipComponent } from 'echarts/components'
import { init, use } from 'echarts/core'
import { CanvasRenderer } from 'echarts/renderers'

// Only what the weeks are drawn with; this file is loaded when a chart is first shown.
use([LineChart, GridComponent, MarkLineComponent, TooltipComponent, CanvasRenderer])

export { init }
