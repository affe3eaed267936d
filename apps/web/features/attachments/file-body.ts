/** A file's bytes as base64, read by the browser itself. */
export function base64Of(file: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader()
    reader.onerror = () => reject(reader.error ?? new Error('The file could not be read.'))
    reader.onload = () => {
      const url = String(reader.result)
      resolve(url.slice(url.indexOf(',') + 1))
    }
    reader.readAsDataURL(file)
  })
}

/** What a file calls itself. Some systems know no kind for a list, or name the program that opens it. */
export function typeOfFile({ name, type }: Pick<File, 'name' | 'type'>): string {
  return /\.csv$/i.test(name) ? 'text/csv' : type
}
