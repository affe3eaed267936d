import type { SignedContent } from '@curebook/contract/signed-content'

/** A report as it is printed: the signed content, and the few things that are not part of it. Times are ISO instants. */
export type ReportToRender = {
  /** Parsed from exactly the text that was signed. */
  readonly content: SignedContent
  readonly report: {
    /** The number of the report; null while the content is not approved: then it is a draft, with nothing to check it by. */
    readonly number: string | null
    /** 0 for a first issue. */
    readonly amendment: number
    /** Number of the report that this one replaces. */
    readonly replaces?: string | null
    /** Why it replaces the earlier one. */
    readonly reason?: string | null
    /** When the file was made; a report is issued on the same day. */
    readonly madeAt: string
    readonly language: 'en'
    readonly paper: 'A4' | 'letter'
    /** Null for a draft. */
    readonly checkCode: string | null
    /** Address of the public page of this report; without it no QR is printed. */
    readonly checkUrl: string | null
    /** SHA-256 of the signed text, hex. */
    readonly digest: string
  }
  readonly signatures: readonly {
    readonly meaning: string
    readonly name: string
    readonly role: string
    readonly statement: string
    readonly at: string
    readonly digest: string
  }[]
}
