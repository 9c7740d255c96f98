/** Grades of the grey scales, best first (ISO 105-A02 for change, -A03 for staining). */
export const GREY_GRADES = ['5', '4-5', '4', '3-4', '3', '2-3', '2', '1-2', '1'] as const
export type GreyGrade = (typeof GREY_GRADES)[number]
