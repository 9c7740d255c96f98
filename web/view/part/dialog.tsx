import type { ComponentChildren } from 'preact'
import { useLayoutEffect, useRef } from 'preact/hooks'
import { useWords } from '../page-context.ts'

/** A sheet over the page. The browser's own dialog keeps the focus inside and closes with Escape. */
export function Dialog(props: {
  readonly title: string
  readonly onClose: () => void
  readonly children: ComponentChildren
}) {
  const { w } = useWords()
  const box = useRef<HTMLDialogElement>(null)
  // Before anything is painted: a key pressed at once finds it open.
  useLayoutEffect(() => {
    box.current?.showModal()
  }, [])
  return (
    <dialog class="sheet" ref={box} onClose={props.onClose} aria-label={props.title}>
      <div class="sheet-head">
        <h2>{props.title}</h2>
        <button type="button" class="button quiet" onClick={() => box.current?.close()}>
          {w.shell.close}
        </button>
      </div>
      {props.children}
    </dialog>
  )
}
