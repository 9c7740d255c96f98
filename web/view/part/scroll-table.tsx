import type { ComponentChildren } from 'preact'

/** A table that may be wider than a phone: it scrolls by itself, with the keyboard too. */
export function ScrollTable(props: {
  readonly label: string
  readonly look?: 'figures' | 'differences' | 'plain'
  readonly children: ComponentChildren
}) {
  return (
    // A region that scrolls must take the focus, or the keyboard can't scroll it (WCAG 2.1.1).
    <div class="scroll-x" role="region" aria-label={props.label} tabIndex={0}>
      <table class={props.look ?? 'figures'}>{props.children}</table>
    </div>
  )
}
