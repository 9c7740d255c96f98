import { type Lab, hexOfLab } from '#core/batch/colour'

/** A colour as a screen can show it; always beside its numbers. */
export function Swatch({ lab }: { readonly lab: Lab }) {
  return (
    <svg class="swatch" viewBox="0 0 40 40" preserveAspectRatio="none" aria-hidden="true" focusable="false">
      <rect width={40} height={40} fill={hexOfLab(lab)} />
    </svg>
  )
}
