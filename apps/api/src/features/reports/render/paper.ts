/** Look of the printed report, in PDF points and colours: paper-white ground, dark ink, deep blue-green heads. */
export const paper = {
  sizes: { A4: [595.28, 841.89], letter: [612, 792] },
  margin: { left: 48, right: 48, top: 66, bottom: 58 },
} as const

export const colours = {
  ink: '#23262a',
  quiet: '#565f66',
  head: '#0c4a52',
  rule: '#c3cfd0',
  wash: '#eaf1f0',
  band: '#dcebe8',
  lost: '#9a1f17',
  open: '#6d4300',
  series: ['#3d2f96', '#0c5a57', '#7d4b00', '#8a2f6b'],
  ground: '#ffffff',
} as const

export const fonts = {
  text: 'text',
  strong: 'strong',
  table: 'table',
  tableStrong: 'table-strong',
} as const
export type FontName = (typeof fonts)[keyof typeof fonts]

export type TextStyle = {
  readonly font: FontName
  readonly size: number
  readonly colour: string
  /** Height of a line, in points. */
  readonly leading: number
}
const style = (font: FontName, size: number, colour: string, leading = size * 1.36): TextStyle => ({
  font,
  size,
  colour,
  leading,
})

export const styles = {
  laboratory: style(fonts.strong, 13, colours.head),
  title: style(fonts.strong, 21, colours.head, 27),
  section: style(fonts.strong, 12.5, colours.head, 17),
  part: style(fonts.strong, 9.2, colours.head, 13),
  body: style(fonts.text, 8.6, colours.ink),
  quiet: style(fonts.text, 7.6, colours.quiet),
  strong: style(fonts.strong, 8.6, colours.ink),
  lead: style(fonts.strong, 11.5, colours.ink, 16),
  cell: style(fonts.table, 7.5, colours.ink, 10),
  cellStrong: style(fonts.tableStrong, 7.5, colours.ink, 10),
  head: style(fonts.tableStrong, 7.1, colours.head, 9.2),
  denseCell: style(fonts.table, 6.9, colours.ink, 8.8),
  denseStrong: style(fonts.tableStrong, 6.9, colours.ink, 8.8),
  denseHead: style(fonts.tableStrong, 6.5, colours.head, 8.2),
  chart: style(fonts.table, 7, colours.ink, 9),
  chartQuiet: style(fonts.table, 6.4, colours.quiet, 8),
  furniture: style(fonts.table, 7.2, colours.quiet, 10),
} as const
