import { mixedC, type Warm, water, wetGoods } from '#core/bath/mixing'
import { AT, type PotBelief } from '#core/bath/pot-belief'
import type { MixingAsk } from '#core/wire/api-burner'
import type { MixingAnswer } from '#core/wire/burner'

/** Where a bath stands once goods or water have gone in and are mixed, before any heat makes up for it. */
export function mixInto(belief: PotBelief, bathC: number, { goods, topUp }: MixingAsk): MixingAnswer {
  const parts: Warm[] = [{ capacityJPerC: Math.exp(belief.mean[AT.capacity]!), tempC: bathC }]
  if (goods !== undefined) parts.push(wetGoods(goods.dryKg, goods.tempC, goods.waterKg))
  if (topUp !== undefined) parts.push(water(topUp.litres, topUp.tempC))
  return { bathC, mixedC: mixedC(parts) }
}
