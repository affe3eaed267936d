/** Speeds at which a balance may be set to send, in bits a second. The usual ones of serial lines; common practice, no source. */
export const baudRates = [1200, 2400, 4800, 9600, 19_200, 38_400, 57_600, 115_200] as const
export const dataBits = [7, 8] as const
export const parities = ['none', 'even', 'odd'] as const
export const stopBits = [1, 2] as const

/** How one balance sends: the settings of its line, and one line with the number that was shown then. */
export type LineSettings = {
  readonly baudRate: (typeof baudRates)[number]
  readonly dataBits: (typeof dataBits)[number]
  readonly parity: (typeof parities)[number]
  readonly stopBits: (typeof stopBits)[number]
  readonly example: string
  readonly shown: string
}

/** How most balances are delivered; common practice, no source. Whoever enters them reads them off the balance. */
export const usualLine = { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1 } as const
