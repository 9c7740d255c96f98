/** One check: the probe said `rawC` where the bath was `trueC`. */
export interface CheckPoint {
  readonly rawC: number
  readonly trueC: number
}
