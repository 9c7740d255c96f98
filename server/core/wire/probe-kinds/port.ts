import { z } from 'zod'

const usb = z
  .strictObject({
    vendorId: z.string().regex(/^[0-9a-fA-F]{4}$/, 'allowed are four hexadecimal digits'),
    productId: z
      .string()
      .regex(/^[0-9a-fA-F]{4}$/, 'allowed are four hexadecimal digits')
      .optional(),
    serialNumber: z.string().min(1).max(128).optional(),
  })
  .readonly()
export type UsbIdentity = z.infer<typeof usb>

/** A serial port: by its path, or by what is plugged in. */
export const port = {
  path: z.string().min(1).max(256).optional(),
  usb: usb.optional(),
  baud: z.number().int().min(50).max(4_000_000).default(9600),
  dataBits: z.union([z.literal(7), z.literal(8)]).optional(),
  parity: z.enum(['none', 'even', 'odd']).optional(),
  stopBits: z.union([z.literal(1), z.literal(2)]).optional(),
}
