/** A file is saved, never shown as a page; its name in plain signs, and as typed for whoever reads RFC 6266. */
export function fileHeader(name: string): string {
  const plain = name.replace(/[^A-Za-z0-9 ._-]/g, '_')
  const whole = encodeURIComponent(name).replace(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
  )
  return `attachment; filename="${plain}"; filename*=UTF-8''${whole}`
}
