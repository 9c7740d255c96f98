import { render } from 'preact'

render(<h1>Holdfast</h1>, document.getElementById('app')!)
