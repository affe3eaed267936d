declare module 'fontkit' {
  export type Font = { readonly hasGlyphForCodePoint: (codePoint: number) => boolean }
  export function openSync(path: string): Font
}
